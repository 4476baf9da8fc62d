import type { Alternative } from './alternatives.ts';
import type { RatherThan, Reason } from './answer-model.ts';
import { newHolesInOldCloth, type Step } from './rank.ts';
import type { Option } from './situation.ts';

/** Two rules are as many as anybody keeps in mind. */
const MOST = 2;

/** Says figures in the studio's way. */
export interface FigureWords {
  count(value: number): string;
  money(value: number): string;
  years(value: number): string;
}

/** How the recommendation beats another plan on each step that is not a stage. */
const STEP_SENTENCES: Partial<Record<Step, (better: Option, worse: Option, say: FigureWords) => string>> = {
  'wanted years': (better, worse, say) =>
    `The middle of its range is ${say.years(worse.estimates.life.middle)}, short of the years wanted; the recommendation reaches ${say.years(better.estimates.life.middle)}.`,
  'new holes': (better, worse, say) =>
    `It would make ${say.count(newHolesInOldCloth(worse))} new holes in old cloth, against ${say.count(newHolesInOldCloth(better))}.`,
  price: (better, worse, say) =>
    `It would make as many new holes and cost ${say.money(worse.estimates.price.likely)}, against ${say.money(better.estimates.price.likely)}.`,
  'order of treatments': () => 'It would do more to the quilt, with as many new holes and at the same price.',
};

/** Why a treatment is not the recommendation: one sentence with the figures, and the rules behind it. */
export function ratherThan(
  alternative: Alternative,
  recommended: Option | undefined,
  own: Option,
  reasons: readonly Reason[],
  say: FigureWords,
): RatherThan {
  const kept = reasons.slice(0, MOST);
  const { treatment, outcome, step } = alternative;
  const byRules = kept.map((reason) => reason.because).join(' ');
  const byStep =
    step !== undefined && recommended !== undefined
      ? STEP_SENTENCES[step]?.(recommended, own, say)
      : undefined;
  return {
    treatment,
    outcome:
      outcome === 'possible' ? 'ranked_lower' : outcome === 'not_offered' ? 'not_offered' : 'ruled_out',
    sentence: byStep ?? (byRules === '' ? 'No rule speaks for it.' : byRules),
    reasons: kept,
  };
}
