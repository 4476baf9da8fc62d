import type { QuiltCase } from '../casebook/model.ts';
import type { UnitState } from '../casebook/scales.ts';
import type { Regraded } from './regrade.ts';

/**
 * What a second surveyor is told beforehand: which cloth each letter stands for and where it lies, so that both speak
 * of the same things. Nothing the first one judged: no state, grade, count or finding.
 */
export const toldBeforehand = ({
  survey,
}: QuiltCase): {
  readonly families: Readonly<Record<string, { readonly name: string }>>;
  readonly family_map: readonly (readonly string[])[] | undefined;
} => ({
  families: Object.fromEntries(
    Object.entries(survey.families ?? {}).map(([letter, { name }]) => [letter, { name: name ?? letter }]),
  ),
  family_map: survey.family_map,
});

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
