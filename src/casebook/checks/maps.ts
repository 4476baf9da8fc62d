import { isScalar } from 'yaml';
import type { Place, Problem } from '../../problems/problem.ts';
import type { Path, Source } from '../../source/source.ts';
import type { LayoutSpec } from '../model.ts';
import { LAYOUT_RULES, mapRows, rowName, stateOf } from '../positions.ts';
import { UNIT_STATES } from '../scales.ts';
import { type Check, looks, written } from './check.ts';

const marks = (count: number): string => `${count} mark${count === 1 ? '' : 's'}`;
const rowsSaid = (count: number): string => `${count} row${count === 1 ? '' : 's'}`;

const shape = (source: Source, path: Path, rows: string[][], layout: LayoutSpec): Problem[] => {
  const wanted = LAYOUT_RULES[layout.kind].rows(layout);
  const error = { code: 'map-shape', severity: 'error' } as const;
  const problems: Problem[] = [];
  for (const [index, row] of rows.entries()) {
    const want = wanted[index];
    if (want === undefined || row.length === want || row.includes('#')) continue;
    const place =
      row.length > want ? mapPlace(source, path, index, { from: want }) : mapPlace(source, path, index);
    const what = `row ${rowName(index)} has ${marks(row.length)}, but the layout has ${want} units there`;
    problems.push({ ...error, what, place });
  }
  const name = path.at(-1);
  if (rows.length !== wanted.length) {
    const what = `${name} has ${rowsSaid(rows.length)}, but the layout has ${wanted.length}`;
    const place =
      rows.length > wanted.length ? mapPlace(source, path, wanted.length) : source.place(path, 'key');
    problems.push({ ...error, what, place });
  }
  return problems;
};

const STATES = Object.entries(UNIT_STATES)
  .map(([state, mark]) => `${mark} ${state}`)
  .join(', ');

type Words = Pick<Problem, 'what' | 'cure' | 'didYouMean'>;

const aboutUnit = (mark: string, row: number): Words => ({
  what: `"${mark}" in row ${rowName(row)} is not a mark of the unit map`,
  cure: `Use one of ${STATES}.`,
  ...(stateOf(mark.toLowerCase()) ? { didYouMean: mark.toLowerCase() } : {}),
});

const aboutFamily =
  (letters: readonly string[]) =>
  (mark: string, row: number): Words => {
    const near = letters.find((letter) => letter.toLowerCase() === mark.toLowerCase());
    const known = letters.length > 0 ? letters.join(', ') : 'none yet';
    return {
      what: `"${mark}" in row ${rowName(row)} is not one of the families`,
      cure: `Use the letters under families (${known}), or add the family there.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    };
  };

/** Which marks are known on a map, and what is said of others. */
interface Legend {
  readonly known: (mark: string) => boolean;
  readonly say: (mark: string, row: number) => Words;
}

/** Marks nobody can read: each once a row, a family nobody described once a map. */
const strangeMarks = (source: Source, path: Path, rows: string[][], { known, say }: Legend): Problem[] => {
  const said = new Set<string>();
  return rows.flatMap((row, index) => {
    const note = row.indexOf('#');
    if (note !== -1) {
      const what = `row ${rowName(index)} has a note in it, and a map cannot hold notes`;
      const cure = 'Move the note to a line of its own above the map, beginning with #.';
      return [
        {
          code: 'map-letter',
          severity: 'error',
          what,
          cure,
          place: mapPlace(source, path, index, { from: note }),
        },
      ];
    }
    return row.flatMap((mark, column): Problem[] => {
      const key = path.at(-1) === 'units' ? `${mark} ${index}` : mark;
      if (known(mark) || said.has(key)) return [];
      said.add(key);
      const place = mapPlace(source, path, index, { from: column, count: 1 });
      return [{ code: 'map-letter', severity: 'error', ...say(mark, index), place }];
    });
  });
};

const folded = (source: Source, path: Path): Problem[] => {
  // Without the sign nothing is folded, and the document need not be asked.
  if (!source.text.includes('>')) return [];
  const node: unknown = source.doc.getIn(path, true);
  if (!isScalar(node) || node.type !== 'BLOCK_FOLDED') return [];
  const what = `the lines of ${path.at(-1)} run together, because of the > after it`;
  const cure = 'Put | in place of >.';
  return [{ code: 'map-shape', severity: 'error', what, cure, place: source.place(path) }];
};

/** Maps against the layout and against the marks and families there are. */
export const checkMaps: Check = (context) => {
  const { source } = context;
  const letters = new Set<string>();
  return looks(context).flatMap(({ path, survey, layout }) => {
    // As written: a family with a fault in it is still a family.
    for (const letter of Object.keys(written(source, [...path, 'families']) ?? {})) letters.add(letter);
    const list = [...letters].filter((letter) => letter.length === 1).sort();
    return (['units', 'family_map'] as const).flatMap((name): Problem[] => {
      const at = [...path, name];
      const text = written(source, at);
      if (typeof text !== 'string' || survey[name] === undefined) return [];
      const oneLine = folded(source, at);
      if (oneLine.length > 0) return oneLine;
      const rows = mapRows(text);
      const marks =
        name === 'units'
          ? strangeMarks(source, at, rows, { known: (mark) => stateOf(mark) !== undefined, say: aboutUnit })
          : strangeMarks(source, at, rows, { known: (mark) => list.includes(mark), say: aboutFamily(list) });
      return [...(layout ? shape(source, at, rows, layout) : []), ...marks];
    });
  });
};

/**
 * Where a row of a map, or `count` marks of it `from` one on (both counted from 0), stand in the file. A map
 * that was not written as a block under `|` is marked as a whole.
 */
const mapPlace = (
  source: Source,
  path: Path,
  row: number,
  { from = 0, count }: { readonly from?: number; readonly count?: number } = {},
): Place => {
  const node: unknown = source.doc.getIn(path, true);
  const whole = source.place(path);
  if (!isScalar(node) || node.type !== 'BLOCK_LITERAL') return whole;
  let number = whole.line;
  for (let seen = -1; seen < row; ) {
    number += 1;
    if (source.line(number).trim() !== '') seen += 1;
  }
  const line = source.line(number);
  const marks = [...line.matchAll(/\S/gu)].map((match) => match.index);
  const first = marks[from] ?? line.length;
  const last = marks[count === undefined ? marks.length - 1 : from + count - 1] ?? first;
  return source.onLine(number, first + 1, last - first + 1);
};
