import type { Answer, ChosenWay, Way } from './answer-model.ts';

/** Whether a choice was weighed against all that is known now. */
export const stands = (chosen: ChosenWay): boolean => chosen.unweighed.length === 0;

/** The way the work goes by: what was chosen, where that stands, else the recommendation; none where there is neither. */
export function wayOf({
  chosen,
  treatment,
  plan,
  estimates,
  cautions,
  conditions,
  asks,
}: Answer): Way | undefined {
  if (chosen !== null && stands(chosen)) return chosen;
  if (treatment === null || plan === null || estimates === null) return undefined;
  return { treatment, plan, estimates, cautions, conditions, asks };
}
