import { Document } from 'yaml';
import type { Place } from '../problems/problem.ts';
import { once } from '../quantities/once.ts';
import { bare } from './read-yaml.ts';
import type { Source } from './source.ts';

/**
 * Plain data that stands in no file, as a file of it would be: a tenth of the work of writing it and reading it again.
 * With no lines to point at, everything is placed at the beginning. Data must be what JSON can hold.
 */
export function sourceOfData(file: string, data: unknown): Source {
  const text = JSON.stringify(data);
  const beginning: Place = { file, line: 1, column: 1, length: 1, text: '' };
  // Checks look into the document for how a thing was written, and most of them never do.
  const doc = once(() => new Document(data) as unknown as Source['doc']);
  return {
    file,
    text,
    value: bare(data),
    get doc() {
      return doc();
    },
    place: () => beginning,
    onLine: () => beginning,
    line: () => text,
  };
}
