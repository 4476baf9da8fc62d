import { isDeepStrictEqual } from 'node:util';
import {
  Document,
  isCollection,
  isMap,
  isNode,
  isScalar,
  isSeq,
  type Node,
  parseDocument,
  visit,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { keyText, type Path, type Source } from '../source/source.ts';

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

/** One piece of text put in place of another, so that every other byte of the file stays as it was. */
interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

const childOf = (node: unknown, segment: string | number): unknown => {
  if (isMap(node))
    return node.items.find((pair) => keyText(pair.key) === String(segment))?.value ?? undefined;
  return isSeq(node) ? node.items[Number(segment)] : undefined;
};

const columnOf = (text: string, offset: number): number => offset - (text.lastIndexOf('\n', offset - 1) + 1);

/** The end of the line on which the last thing inside a block stands. */
const endOfBlock = (text: string, node: YAMLMap | YAMLSeq): number | undefined => {
  if (!node.range) return undefined;
  const inside = text.slice(0, node.range[1]).trimEnd().length;
  const end = text.indexOf('\n', inside);
  return end === -1 ? text.length : end;
};

const indented = (lines: string, column: number): string =>
  lines
    .split('\n')
    .map((line) => (line === '' ? line : ' '.repeat(column) + line))
    .join('\n');

/** New text in place of a value that is already there. */
const replaced = (text: string, node: Node, value: unknown): Splice | undefined => {
  if (!node.range) return undefined;
  const [from, to] = node.range;
  if (isScalar(node) && node.type === 'BLOCK_LITERAL' && typeof value === 'string') {
    const bodyAt = text.indexOf('\n', from) + 1;
    const column = /^( *)\S/m.exec(text.slice(bodyAt, to))?.[1]?.length;
    if (bodyAt === 0 || column === undefined) return undefined;
    return { from: bodyAt, to, text: `${indented(value.trimEnd(), column)}\n` };
  }
  const block = (isMap(node) || isSeq(node)) && !node.flow;
  if (block || (isScalar(node) && (node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED')))
    return undefined;
  return { from, to, text: onOneLine(value) };
};

/** A new line in a group, or a new entry at the end of a list. */
const added = (text: string, parent: Node, name: string | number, value: unknown): Splice | undefined => {
  if (!parent.range || !(isMap(parent) || isSeq(parent))) return undefined;
  const entry = isMap(parent) ? { [String(name)]: value } : value;
  if (parent.flow) {
    const closing = parent.range[1] - 1;
    const before = text.slice(0, closing).trimEnd();
    const line = onOneLine(entry);
    const bare = isMap(parent) ? line.replace(/^\{\s*/, '').replace(/\s*\}$/, '') : line;
    const comma = parent.items.length === 0 ? ' ' : /,$/.test(before) ? ' ' : ', ';
    return { from: before.length, to: closing, text: `${comma}${bare} ` };
  }
  const first = parent.items[0];
  const start = isMap(parent) ? (first as { key: Node } | undefined)?.key.range?.[0] : parent.range[0];
  const end = endOfBlock(text, parent);
  if (start === undefined || end === undefined) return undefined;
  const lines = onLines(isMap(parent) ? entry : [entry]);
  return { from: end, to: end, text: `\n${indented(lines, columnOf(text, start))}` };
};

/** How to set a value at a path by changing as little text as possible; undefined where that cannot be done. */
const spliceFor = (text: string, root: Node, path: Path, value: unknown): Splice | undefined => {
  let node: Node = root;
  for (const [depth, segment] of path.entries()) {
    const next = childOf(node, segment);
    if (next === undefined || next === null) {
      const rest = path.slice(depth + 1);
      const nested = rest.reduceRight<unknown>((inner, name) => ({ [String(name)]: inner }), value);
      return added(text, node, segment, nested);
    }
    node = next as Node;
  }
  return replaced(text, node, value);
};

/** Answers are kept as people write them: `yes` and `no`, whatever the program calls them. */
const asWritten = (value: unknown): unknown => {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.map(asWritten);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .map(([name, inner]) => [name, asWritten(inner)]),
  );
};

const LAYOUT = { lineWidth: 0, flowCollectionPadding: true } as const;

/** A value on one line, safe inside braces and brackets. */
const onOneLine = (value: unknown): string => {
  const doc = new Document([value], { version: '1.2', schema: 'core' });
  visit(doc, {
    Collection: (_, node) => {
      node.flow = true;
    },
  });
  return doc
    .toString({ ...LAYOUT, collectionStyle: 'flow' })
    .trim()
    .replace(/^\[\s*/, '')
    .replace(/\s*\]$/, '');
};

const flat = (value: unknown): boolean =>
  typeof value !== 'object' ||
  value === null ||
  Object.values(value).every((inner) => typeof inner !== 'object' && !String(inner).includes('\n'));

/** A value over as many lines as it needs; a small group inside a list stays on one line, a map keeps its rows. */
const onLines = (value: unknown): string => {
  const doc = new Document(value, { version: '1.2', schema: 'core' });
  visit(doc, {
    Seq: (_, list) => {
      for (const item of list.items) {
        const node = item as Node;
        if (isCollection(node) && flat(node.toJSON())) node.flow = true;
      }
    },
  });
  return doc.toString(LAYOUT).trimEnd();
};
