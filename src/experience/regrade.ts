import type { QuiltCase } from '../casebook/model.ts';
import { rowName } from '../casebook/positions.ts';
import type { UnitState } from '../casebook/scales.ts';
import type { Figures } from '../figures/model.ts';
import { sampleOf, seeded } from '../statistics/seeded.ts';

/** A unit to be graded again. Its recorded state is not part of it. */
export interface Regraded {
  readonly at: string;
  readonly row: number;
  readonly column: number;
}

interface Unit extends Regraded {
  readonly state: UnitState;
  readonly family: string;
}

/**
 * Units to grade again without looking at the first grades: a stratified tenth, at least ten. Strata are state and
 * family as recorded; each gives its share, by largest remainder, and rare states at least one, so that a sample of
 * sound units alone cannot pass. The same case and round always give the same units. Undefined where there is no map.
 */
export const regradeSample = (
  { case: name, survey }: QuiltCase,
  figures: Figures,
  round = 1,
): readonly Regraded[] | undefined => {
  const units = (survey.units ?? []).flatMap((row, r) =>
    row.flatMap((state, c): Unit[] =>
      state === 'unseen'
        ? []
        : [
            {
              at: `${rowName(r)}${c + 1}`,
              row: r,
              column: c,
              state,
              family: survey.family_map?.[r]?.[c] ?? '',
            },
          ],
    ),
  );
  if (units.length === 0) return undefined;
  const share = figures.number('experience.regrade.share');
  const least = figures.number('experience.regrade.least');
  const size = Math.min(units.length, Math.max(least, Math.ceil(share * units.length)));
  const random = seeded(`${name} regrade ${round}`);
  const strata = new Map<string, Unit[]>();
  for (const unit of units) {
    const key = `${unit.state} ${unit.family}`;
    strata.set(key, [...(strata.get(key) ?? []), unit]);
  }
  const named = [...strata].sort(([a], [b]) => (a < b ? -1 : 1));
  const quota = quotas(
    named.map(([, members]) => members.length),
    size,
  );
  return named
    .flatMap(([, members], index) => sampleOf(members, quota[index] ?? 0, random))
    .sort((a, b) => a.row - b.row || a.column - b.column)
    .map(({ at, row, column }) => ({ at, row, column }));
};

/** Seats by largest remainder, one for every stratum first as far as they go, the smallest strata first. */
const quotas = (sizes: readonly number[], seats: number): number[] => {
  const total = sizes.reduce((sum, size) => sum + size, 0);
  const ideal = sizes.map((size) => (seats * size) / total);
  const given = sizes.map(() => 0);
  const order = sizes
    .map((size, index) => ({ size, index }))
    .sort((a, b) => a.size - b.size || a.index - b.index);
  let left = seats;
  for (const { index } of order) {
    if (left === 0) break;
    given[index] = 1;
    left -= 1;
  }
  while (left > 0) {
    const wanting = ideal
      .map((want, index) => ({ index, lack: want - (given[index] ?? 0) }))
      .filter(({ index }) => (given[index] ?? 0) < (sizes[index] ?? 0))
      .sort((a, b) => b.lack - a.lack || a.index - b.index)[0];
    if (wanting === undefined) break;
    given[wanting.index] = (given[wanting.index] ?? 0) + 1;
    left -= 1;
  }
  return given;
};

/** A map on which only the units graded again are marked; every other is not seen. */
export const regradedMap = (
  { survey }: QuiltCase,
  given: ReadonlyMap<string, UnitState>,
  sample: readonly Regraded[],
): readonly (readonly UnitState[])[] =>
  (survey.units ?? []).map((row, r) =>
    row.map((_, c): UnitState => {
      const unit = sample.find(({ row: y, column: x }) => y === r && x === c);
      return (unit === undefined ? undefined : given.get(unit.at)) ?? 'unseen';
    }),
  );
