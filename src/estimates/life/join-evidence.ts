import type { SurveyedJoins } from '../../findings/surveyed.ts';
import type { OldCloth, Worked } from './old-cloth.ts';

/** What the joins inspected say of the seams themselves: everything open that cloth did not open. */
export function seamEvidence({ inspected, open, thread, cloth, allowance }: SurveyedJoins): {
  seen?: number;
  failed?: number;
} {
  if (inspected === undefined || inspected === 0) return {};
  const failed = open === undefined ? (thread ?? 0) + (allowance ?? 0) : open - (cloth ?? 0);
  if (open === undefined && thread === undefined) return {};
  return { seen: inspected, failed: Math.min(inspected, Math.max(0, failed)) };
}

/**
 * Adds to each cloth the joins that could have torn it and those that did. Inspected joins are shared out by area, torn
 * ones by position where both are known, and else to the weakest cloth there is.
 */
export function withTornJoins(cloths: readonly OldCloth[], plan: Worked): readonly OldCloth[] {
  const { inspected, cloth: torn, openAt } = plan.quilt.joins;
  if (inspected === undefined || torn === undefined || cloths.length === 0) return cloths;
  const all = cloths.reduce((sum, { share }) => sum + share, 0);
  const weakest = weakestOf(cloths);
  const placed = openAt
    .filter(({ cause }) => cause === 'cloth')
    .map(({ a, b }) => weakestOf(cloths.filter(({ family }) => familiesAt(plan, [a, b]).includes(family))));
  const known = placed.filter((one) => one !== undefined);
  return cloths.map((one) => {
    const seen = Math.round((inspected * one.share) / all);
    const here = known.filter((other) => other === one).length;
    const failed = here + (one === weakest ? Math.max(0, torn - known.length) : 0);
    return { ...one, seen: one.seen + Math.max(seen, failed), failed: one.failed + failed };
  });
}

function familiesAt({ quilt }: Worked, positions: readonly string[]): readonly (string | undefined)[] {
  const groups = quilt.groups.filter(({ among }) => positions.some((at) => among?.includes(at)));
  return groups.map(({ family }) => family).filter((family) => family !== undefined);
}

const meanGrade = ({ chances }: OldCloth): number =>
  Object.entries(chances).reduce((sum, [grade, chance]) => sum + Number(grade) * chance, 0);

/** The worst grade, the larger share where two are alike. */
const weakestOf = (cloths: readonly OldCloth[]): OldCloth | undefined =>
  [...cloths].sort((a, b) => meanGrade(b) - meanGrade(a) || b.share - a.share)[0];
