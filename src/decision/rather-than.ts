import type { Rule } from '../rulebook/model.ts';
import type { Alternative } from './alternatives.ts';
import type { RatherThan, Reason } from './answer-model.ts';
import { newHolesInOldCloth, type Step } from './rank.ts';
import type { Option } from './situation.ts';
import type { Words } from './words.ts';

/** Two rules are as many as anybody keeps in mind. */
const MOST = 2;

/** Says figures in the studio's way. */
export interface FigureWords {
  count(value: number): string;
  money(value: number): string;
  years(value: number): string;
}

const holes = (count: number, say: FigureWords): string =>
  `${say.count(count)} new ${Math.round(count) === 1 ? 'hole' : 'holes'}`;

/** How the recommendation beats another plan on each step that is not a stage. */
const STEP_SENTENCES: Partial<Record<Step, (better: Option, worse: Option, say: FigureWords) => string>> = {
  'wanted years': (better, worse, say) =>
    `Its next repair is expected in about ${say.years(worse.estimates.life.middle)}, sooner than wanted; that of what we recommend in about ${say.years(better.estimates.life.middle)}.`,
  'new holes': (better, worse, say) =>
    `It would make ${holes(newHolesInOldCloth(worse), say)} in old cloth; what we recommend makes ${newHolesInOldCloth(better) === 0 ? 'none' : say.count(newHolesInOldCloth(better))}.`,
  price: (better, worse, say) =>
    `It would make as many new holes as what we recommend, and cost about ${say.money(worse.estimates.price.likely)}, against ${say.money(better.estimates.price.likely)}.`,
  'order of treatments': () => 'It would do more to the quilt, with as many new holes and at the same price.',
};

/** Why a treatment is not the recommendation: one sentence with the figures, and the rules behind it. */
export function ratherThan(
  alternative: Alternative,
  recommended: Option | undefined,
  own: Option,
  reasons: readonly Reason[],
  say: { readonly figures: FigureWords; readonly words: Words },
): RatherThan {
  const kept = reasons.slice(0, MOST);
  const { treatment, outcome, step } = alternative;
  const byRules = kept
    .map((reason, index) => withFigures(reason, alternative.reasons[index]?.rule, say.words))
    .join(' ');
  const byStep =
    step !== undefined && recommended !== undefined
      ? STEP_SENTENCES[step]?.(recommended, own, say.figures)
      : undefined;
  return {
    treatment,
    outcome:
      outcome === 'possible' ? 'ranked_lower' : outcome === 'not_offered' ? 'not_offered' : 'ruled_out',
    sentence: byStep ?? (byRules === '' ? 'Nothing that was found speaks for it.' : byRules),
    reasons: kept,
  };
}

const FIGURES_SHOWN = 2;

/**
 * A rule's sentence; where it names no figure, the findings it stands on follow in brackets: "… larger (share of seams
 * that have opened: 5 %)." What the sentence says already is not said twice.
 */
function withFigures({ because, findings }: Reason, rule: Rule | undefined, words: Words): string {
  if (rule?.because.includes('{') === true || !because.endsWith('.')) return because;
  const told = findings.flatMap(({ finding, value, test }) => {
    const label = test.startsWith('not ') ? undefined : words.measured(finding);
    return label === undefined || because.includes(value) ? [] : [`${label}: ${value}`];
  });
  const shown = told.slice(0, FIGURES_SHOWN).join('; ');
  return shown === '' ? because : `${because.slice(0, -1)} (${shown}).`;
}
