import type { Family, QuiltCase, Survey } from '../casebook/model.ts';
import type { UnitState } from '../casebook/scales.ts';
import type { SecondSurvey } from '../casebook/second-survey.ts';

/**
 * The case as it would stand on the second survey: what that survey states holds, and what it leaves out is taken from
 * the first, because not having looked is no disagreement. Later looks are kept: they override both surveys alike.
 */
export const filled = (base: QuiltCase, { survey, quilt }: SecondSurvey): QuiltCase => ({
  ...base,
  quilt: over(base.quilt, quilt ?? {}),
  survey: surveyOver(base.survey, survey),
});

const isGroup = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** `later` laid over `earlier`, group by group. */
const over = <T extends object>(earlier: T, later: Partial<T>): T => {
  const merged = { ...earlier } as Record<string, unknown>;
  for (const [name, value] of Object.entries(later)) {
    const before = merged[name];
    merged[name] = isGroup(before) && isGroup(value) ? over(before, value) : value;
  }
  return merged as T;
};

const surveyOver = (first: Survey, second: Survey): Survey => {
  const { units, counts, joins, families, findings, family_map, seen } = second;
  const { units: firstUnits, counts: firstCounts, ...rest } = first;
  const map = units === undefined ? undefined : seenOver(firstUnits, units);
  // A map and a count say the same thing in two ways: the second survey's holds alone.
  const states =
    map !== undefined
      ? { units: map }
      : counts !== undefined
        ? { counts }
        : { ...(firstUnits ? { units: firstUnits } : {}), ...(firstCounts ? { counts: firstCounts } : {}) };
  return {
    ...rest,
    ...states,
    seen,
    ...(joins ? { joins } : {}),
    ...(family_map ? { family_map } : {}),
    ...(families || first.families ? { families: familiesOver(first.families ?? {}, families ?? {}) } : {}),
    findings: { ...first.findings, ...findings },
  };
};

const familiesOver = (
  first: Readonly<Record<string, Family>>,
  second: Readonly<Record<string, Family>>,
): Readonly<Record<string, Family>> =>
  Object.fromEntries(
    [...new Set([...Object.keys(first), ...Object.keys(second)])].map((letter) => [
      letter,
      { ...first[letter], ...second[letter] },
    ]),
  );

/** Units not looked at keep what the first survey says of them. */
const seenOver = (
  first: readonly (readonly UnitState[])[] | undefined,
  second: readonly (readonly UnitState[])[],
): readonly (readonly UnitState[])[] =>
  second.map((row, r) => row.map((state, c) => (state === 'unseen' ? (first?.[r]?.[c] ?? state) : state)));
