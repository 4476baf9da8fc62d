import { UNIT_STATES } from '../../findings/scales.ts';
import type { Problem } from '../../problems/problem.ts';
import type { Path, Source } from '../../source/source.ts';
import { suggest } from '../../source/suggest.ts';
import { mapRows, stateOf } from '../map.ts';
import type { LayoutSpec } from '../model.ts';
import { LAYOUT_RULES, rowName } from '../positions.ts';
import { type Check, looks, written } from './check.ts';
import { mapPlace } from './map-place.ts';

const marks = (count: number): string => `${count} mark${count === 1 ? '' : 's'}`;
const rowsSaid = (count: number): string => `${count} row${count === 1 ? '' : 's'}`;

const shape = (source: Source, path: Path, rows: string[][], layout: LayoutSpec): Problem[] => {
  const wanted = LAYOUT_RULES[layout.kind].rows(layout);
  const error = { code: 'map-shape', severity: 'error' } as const;
  const problems: Problem[] = [];
  for (const [index, row] of rows.entries()) {
    const want = wanted[index];
    if (want === undefined || row.length === want) continue;
    const place =
      row.length > want
        ? mapPlace(source, path, index, want, row.length - want)
        : mapPlace(source, path, index, 0);
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

/** Marks nobody can read, the first of each kind in each row. */
const strangeMarks = (
  source: Source,
  path: Path,
  rows: string[][],
  known: (mark: string) => boolean,
  say: (mark: string, row: number) => Pick<Problem, 'what' | 'cure' | 'didYouMean'>,
): Problem[] =>
  rows.flatMap((row, index) =>
    row.flatMap((mark, column): Problem[] => {
      if (known(mark) || row.indexOf(mark) !== column) return [];
      const place = mapPlace(source, path, index, column, 1);
      return [{ code: 'map-letter', severity: 'error', ...say(mark, index), place }];
    }),
  );

/** Maps against the layout and against the marks and families there are. */
export const checkMaps: Check = (context) => {
  const { source } = context;
  const letters = new Set<string>();
  return looks(context).flatMap(({ path, survey, layout }) => {
    for (const letter of Object.keys(survey.families ?? {})) letters.add(letter);
    const problems: Problem[] = [];
    for (const name of ['units', 'family_map'] as const) {
      const at = [...path, name];
      const text = written(source, at);
      if (typeof text !== 'string' || survey[name] === undefined) continue;
      const rows = mapRows(text);
      if (layout) problems.push(...shape(source, at, rows, layout));
      const list = [...letters].sort();
      const families = list.length > 0 ? list.join(', ') : 'none yet';
      problems.push(
        ...(name === 'units'
          ? strangeMarks(
              source,
              at,
              rows,
              (mark) => stateOf(mark) !== undefined,
              (mark, row) => ({
                what: `"${mark}" in row ${rowName(row)} is not a mark of the unit map`,
                cure: `Use one of ${STATES}.`,
                ...(stateOf(mark.toLowerCase()) ? { didYouMean: mark.toLowerCase() } : {}),
              }),
            )
          : strangeMarks(
              source,
              at,
              rows,
              (mark) => letters.has(mark),
              (mark, row) => {
                const near =
                  suggest(mark, list) ?? list.find((each) => each.toLowerCase() === mark.toLowerCase());
                return {
                  what: `"${mark}" in row ${rowName(row)} is not one of the families`,
                  cure: `Use the letters under families (${families}), or add the family there.`,
                  ...(near === undefined ? {} : { didYouMean: near }),
                };
              },
            )),
      );
    }
    return problems;
  });
};
