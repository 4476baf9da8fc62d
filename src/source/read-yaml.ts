import { type Document, isScalar, parseAllDocuments } from 'yaml';
import { byPlace, type Problem } from '../problems/problem.ts';
import { type Source, sourceOf, textPlaces } from './source.ts';
import { refusedProblems, syntaxProblems, unreadable } from './syntax.ts';

export type Reading = { readonly source: Source } | { readonly problems: Problem[] };

/** Data whose groups have no prototype, so that no key can reach anything but data. */
export const bare = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(bare);
  if (value === null || typeof value !== 'object') return value;
  const group: Record<string, unknown> = Object.create(null);
  for (const [key, inner] of Object.entries(value)) group[key] = bare(inner);
  return group;
};

/**
 * Reads one YAML 1.2 document. Pure: `text` is the whole file, `file` only its name for messages.
 * Everything wrong with the syntax comes back at once; a text that is not text, too large or too deep says only that.
 */
export const readYaml = (file: string, text: string): Reading => {
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const blocked = unreadable(file, body);
  if (blocked) return { problems: [blocked] };

  const places = textPlaces(file, body);
  const parsed = parseAllDocuments(body, {
    version: '1.2',
    schema: 'core',
    uniqueKeys: false,
    prettyErrors: false,
    merge: false,
  });
  const docs: Document.Parsed[] = Array.isArray(parsed) ? parsed : [];
  const [doc, second] = docs;
  const problems = [
    ...syntaxProblems(docs, body, places),
    ...docs.flatMap((each) => refusedProblems(each, places)),
  ];
  if (second) {
    problems.push({
      code: 'yaml-many-documents',
      severity: 'error',
      what: 'a second document begins here',
      place: places.at(second.range[0]),
    });
  }
  if (problems.length > 0) return { problems: problems.sort(byPlace) };
  if (!doc || doc.contents === null || (isScalar(doc.contents) && doc.contents.value === null)) {
    const what = body.trim() === '' ? `${file} is empty` : `${file} holds nothing but comments`;
    return { problems: [{ code: 'empty-file', severity: 'error', what, place: places.at(0) }] };
  }
  return { source: sourceOf({ file, text, body, doc, value: bare(doc.toJS()) }) };
};
