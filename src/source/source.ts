import { type Document, isMap, isNode, isScalar, isSeq, type Pair, type YAMLMap } from 'yaml';
import type { Place } from '../problems/problem.ts';

export type Path = readonly (string | number)[];

/** A text file that was read as YAML, with a place for everything in it. */
export interface Source {
  readonly file: string;
  /** The text as it was given, line ends and byte-order mark included. */
  readonly text: string;
  /** Plain data. Groups have no prototype, so a key named `constructor` or `__proto__` is only a key. */
  readonly value: unknown;
  /** The document behind it, for edits that keep comments. */
  readonly doc: Document.Parsed;
  /**
   * Where a path stands in the file: its value, or its key where `which` is 'key'. What does not exist is
   * placed at the key of the nearest parent that does.
   */
  place(path: Path, which?: 'key' | 'value'): Place;
  /** The place of `length` characters on a line; line and column count from 1. */
  onLine(line: number, column: number, length?: number): Place;
  /** One line of the file, counted from 1. */
  line(number: number): string;
}

/** A key as text, whatever YAML made of it: `1:` and `"1":` are the same key to a reader. */
export const keyText = (key: unknown): string => String(isScalar(key) ? key.value : key);

const indexed = new WeakMap<YAMLMap, ReadonlyMap<string, Pair>>();

/** The lines of a group by their names, looked up once a group: some are asked for every line they have. */
const pairsOf = (map: YAMLMap): ReadonlyMap<string, Pair> => {
  const known = indexed.get(map);
  if (known !== undefined) return known;
  const pairs = new Map<string, Pair>();
  // Of a name that stands twice, the first counts.
  for (const pair of map.items) if (!pairs.has(keyText(pair.key))) pairs.set(keyText(pair.key), pair);
  indexed.set(map, pairs);
  return pairs;
};

const child = (node: unknown, segment: string | number): { key: unknown; value: unknown } | undefined => {
  if (isMap(node)) {
    const pair = pairsOf(node).get(String(segment));
    return pair && { key: pair.key, value: pair.value };
  }
  if (isSeq(node)) {
    const value = node.items[Number(segment)];
    return value === undefined ? undefined : { key: value, value };
  }
  return undefined;
};

const isEmpty = (node: unknown): boolean => isScalar(node) && node.source === '' && node.value === null;

/** A text as read: `body` is the text without what stands before the document. */
interface Read extends Pick<Source, 'file' | 'text' | 'value'> {
  readonly body: string;
  readonly doc: Document.Parsed;
}

export const sourceOf = ({ file, text, body, doc, value }: Read): Source => {
  const places = textPlaces(file, body);
  const rangeOf = (node: unknown): [number, number] | undefined =>
    isNode(node) && node.range ? [node.range[0], node.range[1]] : undefined;

  const place = (path: Path, which: 'key' | 'value' = 'value'): Place => {
    let node: unknown = doc.contents;
    let key: unknown;
    let found = true;
    for (const segment of path) {
      const next = child(node, segment);
      if (next === undefined) {
        found = false;
        break;
      }
      key = next.key;
      node = next.value;
    }
    const wanted = found && which === 'value' && !isEmpty(node) && node !== null ? node : (key ?? node);
    const range = rangeOf(wanted) ?? rangeOf(key) ?? [0, 1];
    const [start, end] = path.length > 0 && key === undefined ? [range[0], range[0] + 1] : range;
    return places.at(start, end - start);
  };
  return { file, text, value, doc, place, onLine: places.onLine, line: places.line };
};

/** Finds lines and columns in one text. Offsets count UTF-16 units, as strings and editors do. */
export interface TextPlaces {
  /** The place of `length` characters at `offset`, cut off at the end of the line. */
  at(offset: number, length?: number): Place;
  /** One source line, counted from 1, without its line break. */
  line(number: number): string;
  /** The place of `length` characters at a line and column, both counted from 1. */
  onLine(number: number, column: number, length?: number): Place;
}

const lineStarts = (text: string): number[] => {
  const starts = [0];
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
};

export const textPlaces = (file: string, text: string): TextPlaces => {
  const starts = lineStarts(text);
  const line = (number: number): string => {
    const start = starts[number - 1] ?? text.length;
    const next = starts[number];
    return text.slice(start, next === undefined ? text.length : next - 1).replace(/\r$/, '');
  };
  const onLine = (number: number, column: number, length = 1): Place => {
    const source = line(number);
    const room = Math.max(1, source.length - column + 1);
    return { file, line: number, column, length: Math.max(1, Math.min(length, room)), text: source };
  };
  const at = (offset: number, length = 1): Place => {
    const safe = Math.max(0, Math.min(offset, text.length));
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((starts[middle] ?? 0) <= safe) low = middle;
      else high = middle - 1;
    }
    return onLine(low + 1, safe - (starts[low] ?? 0) + 1, length);
  };
  return { at, line, onLine };
};
