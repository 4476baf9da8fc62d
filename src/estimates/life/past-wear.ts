import type { Figures } from '../../figures/model.ts';
import type { LifeContext } from './context.ts';
import type { LifeInput } from './model.ts';

/** Wear so far: rate × years summed over a known history, else the years since it was made, else not even those. */
export function pastWear(
  { history, ageYears }: Pick<LifeContext, 'history' | 'ageYears'>,
  figures: Figures,
): { wear: LifeInput['wear']; assumptions: string[] } {
  if (history === undefined || history.length === 0) {
    return {
      wear: { madeYearsAgo: ageYears },
      assumptions: ['Nobody could say how it was used, so the wear so far is a wide guess from its age.'],
    };
  }
  const sum = history.reduce((wear, { use, years }) => wear + years * figures.number(`life.rate.${use}`), 0);
  const told = history.reduce((all, { years }) => all + years, 0);
  const missing = ageYears === undefined ? 0 : ageYears - told;
  return {
    wear: { known: Math.max(figures.number('life.unknown_wear.known_least'), sum) },
    assumptions:
      missing >= 1 ? [`The ${Math.round(missing)} years its history leaves out count as no wear.`] : [],
  };
}
