import type { Answer } from '../../decision/answer-model.ts';
import { estimateRows } from './estimates.ts';
import { TREATMENT_WORDS } from './labels.ts';
import { heading, type PageStyle, paragraph } from './layout.ts';
import { planSentence } from './plan.ts';

/** What was chosen instead of the recommendation: what is done, what it would do, and what is said of it alone. */
export function chosenRows({ chosen, cautions, conditions, asks }: Answer, style: PageStyle): string[] {
  if (chosen === null) return [];
  const said = new Set([...cautions, ...conditions, ...asks].map(({ text }) => text));
  const all = [...chosen.cautions, ...chosen.conditions, ...chosen.asks];
  const own = all.filter(({ text }) => !said.has(text));
  return [
    heading(`Chosen instead: ${TREATMENT_WORDS[chosen.treatment]}`, style),
    paragraph(planSentence(chosen.treatment, chosen.plan), style, '  '),
    ...estimateRows(chosen.estimates, style),
    ...own.map(({ text }) => paragraph(text, style, '  - ')),
  ];
}
