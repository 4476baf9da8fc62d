import type { RecordedDecision } from '../../casebook/model.ts';
import type { SinceApproval } from '../../decision/answer-model.ts';
import { choicesIn, stands } from '../../decision/choice.ts';
import { isSeenInHand } from '../../decision/safety.ts';
import { type Block, paragraph, type Section, type Words } from '../model.ts';
import { clean, listed, quarters, sentence, sentenceCase } from '../phrases.ts';
import type { Writing } from '../writing.ts';
import { headline } from './advice.ts';

/**
 * What the client chose, or the practitioner decided against the rules: when, why, against which rules, and what is
 * risked. Left out where nobody has chosen.
 */
export function decidedSection(writing: Writing): Section[] {
  const chosen = taken(writing);
  if (chosen.length === 0) return [];
  return [
    {
      title: writing.say('decided.title'),
      blocks: [...chosen.flatMap((entry) => decisionBlocks(entry, writing)), ...again(writing)],
    },
  ];
}

/** Where the last choice is another than the recommendation: whose figures a paper bears. */
export function pricedNote(writing: Writing): Block[] {
  const { chosen } = writing.answer;
  if (chosen === null) return [];
  if (!stands(chosen)) return [paragraph(writing.say('decided.figures_advice'))];
  return [paragraph(writing.say('decided.figures', { treatment: writing.treatment(chosen.treatment) }))];
}

/** Why there is nothing agreed on that a paper could go by; undefined where there is. */
export function unagreed({ agreed, answer }: Writing, nothing: string, before: string): string | undefined {
  if (agreed !== undefined) return undefined;
  return answer.chosen === null
    ? `no treatment is recommended or chosen, so there is ${nothing}`
    : `what was chosen was not weighed against what is known now, so it has to be chosen anew before ${before}`;
}

/**
 * Whether the client approved the work or somebody has chosen it, with the quilt seen in hand: before that it is a
 * draft. A work order and an estimate say the same of it.
 */
export const isAgreed = ({ situation, answer, facts }: Writing): boolean =>
  isSeenInHand(facts) &&
  (situation.quiltCase.approved !== undefined ||
    (situation.quiltCase.decisions ?? []).some(
      ({ chosen, on }) => chosen !== undefined && on <= answer.as_of,
    ));

/** A choice that does not stand any more, and why. */
function again(writing: Writing): Block[] {
  const { chosen } = writing.answer;
  if (chosen === null || stands(chosen)) return [];
  return [
    paragraph(writing.say('decided.again', { treatment: writing.treatment(chosen.treatment) })),
    { kind: 'list', items: chosen.unweighed.map(({ text }) => clean(text)) },
  ];
}

/** A choice made after the day of the paper is none of its business, nor one that was taken back. */
const taken = ({ situation, answer }: Writing): readonly RecordedDecision[] =>
  choicesIn(situation.quiltCase, answer.as_of);

function decisionBlocks(entry: RecordedDecision, writing: Writing): Block[] {
  const { chosen, kind, on, because, overrides = [], risk_note: risk } = entry;
  if (chosen === undefined) return [];
  const what = writing.say(kind === 'client' ? 'decided.client' : 'decided.otherwise', {
    on: writing.date(on),
    treatment: writing.treatment(chosen),
  });
  const titles = overrides.flatMap((rule) => titleOf(rule, writing) ?? []);
  const why =
    because === undefined ? [] : [writing.say('decided.because', { reason: sentence(clean(because)) })];
  const against =
    titles.length === 0 ? [] : [`${writing.say('decided.against')} ${sentence(listed(titles.map(quoted)))}`];
  const note: Words[] =
    risk === undefined ? [] : [[{ strong: writing.say('decided.risk', { risk: sentence(clean(risk)) }) }]];
  return [
    paragraph([what, ...why, ...against].join(' ')),
    ...note.map((text): Block => ({ kind: 'paragraph', text })),
  ];
}

const quoted = (title: string): string => `“${clean(title)}”`;

/** A rule by the title under which the answer quotes it; one that no longer speaks has none here. */
function titleOf(rule: string, { answer }: Writing): string | undefined {
  const all = [...answer.reasons, ...answer.rather_than.flatMap(({ reasons }) => reasons)];
  return all.find((reason) => reason.rule === rule)?.title;
}

/** What became of hours, price and answer since the client approved an estimate, and why; left out where none was. */
export function sinceApprovalSection(writing: Writing): Section[] {
  const { answer } = writing;
  const since = answer.since_approval;
  if (since === null) return [];
  const moved =
    since.as_approved.standing !== answer.standing || since.as_approved.treatment !== answer.treatment;
  const found = since.changed.map(({ label, from, to }) =>
    clean(`${sentenceCase(label)}: ${from} then, ${to} now`),
  );
  const blocks = [
    ...figures(since, writing),
    ...(moved
      ? [
          paragraph(
            writing.say('since.moved', {
              before: headline(writing, since.as_approved),
              now: headline(writing, answer),
            }),
          ),
        ]
      : []),
    ...headed(writing.say('since.found'), found),
    ...headed(
      writing.say('since.gained'),
      since.gained.map(({ because }) => clean(because)),
    ),
    ...headed(
      writing.say('since.lost'),
      since.lost.map(({ because }) => clean(because)),
    ),
    ...verdict(since, writing),
  ];
  return blocks.length === 0 ? [] : [{ title: writing.say('since.title'), blocks }];
}

function figures({ hours, price }: SinceApproval, writing: Writing): Block[] {
  const rows = [
    ...(hours === null ? [] : [{ name: 'Hours', cells: [quarters(hours.approved), quarters(hours.now)] }]),
    ...(price === null
      ? []
      : [{ name: 'Price', cells: [writing.money(price.approved), writing.money(price.now)] }]),
  ];
  if (rows.length === 0) return [];
  return [{ kind: 'table', caption: 'Approved, and likely now', columns: ['What', 'Approved', 'Now'], rows }];
}

function verdict({ hours, price, needs_approval: again }: SinceApproval, writing: Writing): Block[] {
  if (writing.way === undefined) return [paragraph(writing.say('since.no_work'))];
  if (hours === null && price === null) return [];
  return [paragraph(writing.say(again ? 'estimate.approve_again' : 'estimate.approved_still'))];
}

const headed = (text: string, items: readonly string[]): Block[] =>
  items.length === 0
    ? []
    : [
        { kind: 'subheading', text },
        { kind: 'list', items },
      ];
