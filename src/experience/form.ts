import type { QuiltCase } from '../casebook/model.ts';
import type { UnitState } from '../casebook/scales.ts';
import type { Regraded } from './regrade.ts';

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
