import { isDeepStrictEqual } from 'node:util';
import { type Document, isMap, isNode, isScalar, parseDocument } from 'yaml';
import { keyText, type Path, type Source } from '../source/source.ts';
import { spliceFor } from './splice.ts';
import { asWritten } from './written-value.ts';

export interface Edit {
  readonly path: Path;
  /** What should stand there; `undefined` takes the line out. */
  readonly value: unknown;
}

const READ = { version: '1.2', schema: 'core', merge: false } as const;

/** Keys as the document holds them, so that a family called `1` is found again. */
const ownKeys = (doc: Document, path: Path): unknown[] => {
  let node: unknown = doc.contents;
  return path.map((segment) => {
    const pair = isMap(node) ? node.items.find((each) => keyText(each.key) === String(segment)) : undefined;
    const key = pair && isScalar(pair.key) ? pair.key.value : segment;
    node = pair
      ? pair.value
      : isNode(node) && 'get' in node
        ? (node as { get(k: unknown, n: true): unknown }).get(segment, true)
        : undefined;
    return key;
  });
};

const edited = (text: string, { path, value: given }: Edit): string => {
  const doc = parseDocument(text, READ);
  const before = doc.contents;
  const value = asWritten(given);
  const small = before === null || value === undefined ? undefined : spliceFor(text, before, path, value);

  const keys = ownKeys(doc, path);
  if (value === undefined) doc.deleteIn(keys);
  else if (isScalar(doc.getIn(keys, true)) && (typeof value !== 'object' || value === null))
    doc.setIn(keys, value);
  else doc.setIn(keys, doc.createNode(value));
  if (small !== undefined) {
    const candidate = text.slice(0, small.from) + small.text + text.slice(small.to);
    const read = parseDocument(candidate, READ);
    // The smallest change is taken only where it reads back as exactly what was asked for.
    if (read.errors.length === 0 && isDeepStrictEqual(read.toJS(), doc.toJS())) return candidate;
  }
  return doc.toString({ lineWidth: 0, flowCollectionPadding: true });
};

/**
 * The text of a case with some values changed. Comments, order and layout stay: a value is changed where it
 * stands, a new line goes to the end of its group, and only where neither serves is the whole file written anew by
 * the yaml library (which keeps comments and order, though not every blank). Line ends and a byte-order mark stay
 * as they were. Values are plain data in the file's own terms, such as '4 1/2 in'; yes/no may be given as booleans.
 */
export const editCase = (source: Source, edits: readonly Edit[]): string => {
  const mark = source.text.startsWith('\uFEFF') ? '\uFEFF' : '';
  const windows = source.text.includes('\r\n');
  let text = source.text.slice(mark.length).replaceAll('\r\n', '\n');
  for (const edit of edits) text = edited(text, edit);
  return mark + (windows ? text.replaceAll('\n', '\r\n') : text);
};
