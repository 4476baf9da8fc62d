import type { Answer } from '../../src/decision/answer-model.ts';

/** Where in an answer a text stands, and the text. */
export interface Told {
  readonly at: string;
  readonly text: string;
}

const told = (at: string, texts: readonly string[]): Told[] => texts.map((text) => ({ at, text }));
const texts = (all: readonly { readonly text: string }[]): string[] => all.map(({ text }) => text);
const becauses = (all: readonly { readonly because: string }[]): string[] =>
  all.map(({ because }) => because);

/** Everything in an answer that a client or a helper reads as a sentence. */
export const sentencesIn = (answer: Answer): Told[] => [
  ...told('reasons', becauses(answer.reasons)),
  ...told(
    'rather_than',
    answer.rather_than.map(({ sentence }) => sentence),
  ),
  ...told(
    'rather_than.reasons',
    answer.rather_than.flatMap(({ reasons }) => becauses(reasons)),
  ),
  ...told(
    'options',
    answer.options.flatMap((each) => [...texts(each.for), ...texts(each.against)]),
  ),
  ...told('offers', texts(answer.offers)),
  ...told('cautions', texts(answer.cautions)),
  ...told('conditions', texts(answer.conditions)),
  ...told('asks', texts(answer.asks)),
  ...told(
    'since_approval',
    becauses([...(answer.since_approval?.gained ?? []), ...(answer.since_approval?.lost ?? [])]),
  ),
  ...told(
    'check_next.how',
    (answer.check_next ?? []).map(({ how }) => how),
  ),
  ...told(
    'assumptions',
    [answer, ...answer.options].flatMap(({ estimates }) => estimates?.assumptions ?? []),
  ),
];

type Change = { readonly label: string; readonly from: string; readonly to: string };
const labels = ({ label, from, to }: Change): string[] => [label, from, to];

/** Names and values, which are no sentences. */
export const wordsIn = (answer: Answer): Told[] => [
  ...told(
    'would_change',
    (answer.would_change ?? []).flatMap(({ changes }) => changes.flatMap(labels)),
  ),
  ...told(
    'check_next',
    (answer.check_next ?? []).flatMap(({ label, could_lead_to: leads }) => [
      label,
      ...leads.map(({ value }) => value),
    ]),
  ),
  ...told(
    'open',
    answer.open.map(({ label }) => label),
  ),
  ...told('since_approval', (answer.since_approval?.changed ?? []).flatMap(labels)),
  ...told(
    'reasons.findings',
    answer.reasons.flatMap(({ findings }) =>
      findings.flatMap(({ value, threshold }) => [value, threshold ?? '']),
    ),
  ),
  ...told(
    'materials',
    [answer, ...answer.options].flatMap(({ estimates }) =>
      (estimates?.materials ?? []).flatMap(({ what, note }) => [what, note ?? '']),
    ),
  ),
  ...told(
    'weakest_link',
    [answer, ...answer.options].flatMap(({ estimates }) => estimates?.life_years.weakest_link ?? []),
  ),
  ...told(
    'gap_after',
    answer.options.map(({ plan }) => plan.gap_after),
  ),
];
