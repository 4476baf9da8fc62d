import type { Answer } from '../../decision/answer-model.ts';
import { stands } from '../../decision/way.ts';
import { FORECAST_NOTE } from '../../estimates/life/model.ts';
import { estimateRows } from './estimates.ts';
import { TREATMENT_WORDS } from './labels.ts';
import { heading, type PageStyle, paragraph } from './layout.ts';
import { planSentence } from './plan.ts';

/** What was chosen instead of the recommendation: what is done, what it would do, and what is said of it alone. */
export function chosenRows(answer: Answer, style: PageStyle): string[] {
  const { chosen, cautions, conditions, asks } = answer;
  if (chosen === null) return [];
  const { treatment, on, unweighed, plan, estimates } = chosen;
  const what = TREATMENT_WORDS[treatment];
  if (!stands(chosen))
    return [
      heading(`Chosen on ${on}, and to be chosen anew: ${what}`, style),
      paragraph('The choice was not weighed against this:', style, '  '),
      ...unweighed.map(({ text }) => paragraph(text, style, '  - ')),
    ];
  const said = new Set([...cautions, ...conditions, ...asks].map(({ text }) => text));
  const all = [...chosen.cautions, ...chosen.conditions, ...chosen.asks];
  const own = all.filter(({ text }) => !said.has(text));
  return [
    heading(`Chosen instead on ${on}: ${what}`, style),
    paragraph(planSentence(treatment, plan), style, '  '),
    ...estimateRows(estimates, style),
    // It stands beside the years of the advice, where there are any.
    ...(answer.estimates === null ? [paragraph(FORECAST_NOTE, style, '  ')] : []),
    ...own.map(({ text }) => paragraph(text, style, '  - ')),
  ];
}
