import type { RecordedDecision } from '../../casebook/model.ts';
import { type SinceApproval, stands } from '../../decision/answer-model.ts';
import { choicesIn } from '../../decision/choice.ts';
import { isSeenInHand } from '../../decision/safety.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section, type Words } from '../model.ts';
import { clean, listed, quarters, sentence, sentenceCase } from '../phrases.ts';
import { headline } from './advice.ts';

/**
 * What the client chose, or the practitioner decided against the rules: when, why, against which rules, and what is
 * risked. Left out where nobody has chosen.
 */
export function decidedSection(doc: DocumentContext): Section[] {
  const chosen = taken(doc);
  if (chosen.length === 0) return [];
  return [
    {
      title: doc.say('decided.title'),
      blocks: [...chosen.flatMap((entry) => decisionBlocks(entry, doc)), ...again(doc)],
    },
  ];
}

/** Where the last choice is another than the recommendation: whose figures a paper bears. */
export function pricedNote(doc: DocumentContext): Block[] {
  const { chosen } = doc.answer;
  if (chosen === null) return [];
  if (!stands(chosen)) return [paragraph(doc.say('decided.figures_advice'))];
  return [paragraph(doc.say('decided.figures', { treatment: doc.treatment(chosen.treatment) }))];
}

/** Why there is nothing agreed on that a paper could go by; undefined where there is. */
export function unagreed(
  { agreed, answer }: DocumentContext,
  nothing: string,
  before: string,
): string | undefined {
  if (agreed !== undefined) return undefined;
  return answer.chosen === null
    ? `no treatment is recommended or chosen, so there is ${nothing}`
    : `what was chosen was not weighed against what is known now, so it has to be chosen anew before ${before}`;
}

/**
 * Whether the client approved the work or somebody has chosen it, with the quilt seen in hand: before that it is a
 * draft. A work order and an estimate say the same of it.
 */
export const isAgreed = ({ situation, answer, facts }: DocumentContext): boolean =>
  isSeenInHand(facts) &&
  (situation.quiltCase.approved !== undefined ||
    (situation.quiltCase.decisions ?? []).some(
      ({ chosen, on }) => chosen !== undefined && on <= answer.as_of,
    ));

/** A choice that does not stand any more, and why. */
function again(doc: DocumentContext): Block[] {
  const { chosen } = doc.answer;
  if (chosen === null || stands(chosen)) return [];
  return [
    paragraph(doc.say('decided.again', { treatment: doc.treatment(chosen.treatment) })),
    { kind: 'list', items: chosen.unweighed.map(({ text }) => clean(text)) },
  ];
}

/** A choice made after the day of the paper is none of its business, nor one that was taken back. */
const taken = ({ situation, answer }: DocumentContext): readonly RecordedDecision[] =>
  choicesIn(situation.quiltCase, answer.as_of);

function decisionBlocks(entry: RecordedDecision, doc: DocumentContext): Block[] {
  const { chosen, kind, on, because, overrides = [], risk_note: risk } = entry;
  if (chosen === undefined) return [];
  const what = doc.say(kind === 'client' ? 'decided.client' : 'decided.otherwise', {
    on: doc.date(on),
    treatment: doc.treatment(chosen),
  });
  const titles = overrides.flatMap((rule) => titleOf(rule, doc) ?? []);
  const why = because === undefined ? [] : [doc.say('decided.because', { reason: sentence(clean(because)) })];
  const against =
    titles.length === 0 ? [] : [`${doc.say('decided.against')} ${sentence(listed(titles.map(quoted)))}`];
  const note: Words[] =
    risk === undefined ? [] : [[{ strong: doc.say('decided.risk', { risk: sentence(clean(risk)) }) }]];
  return [
    paragraph([what, ...why, ...against].join(' ')),
    ...note.map((text): Block => ({ kind: 'paragraph', text })),
  ];
}

const quoted = (title: string): string => `“${clean(title)}”`;

/** A rule by the title under which the answer quotes it; one that no longer speaks has none here. */
function titleOf(rule: string, { answer }: DocumentContext): string | undefined {
  const all = [...answer.reasons, ...answer.rather_than.flatMap(({ reasons }) => reasons)];
  return all.find((reason) => reason.rule === rule)?.title;
}

/** What became of hours, price and answer since the client approved an estimate, and why; left out where none was. */
export function sinceApprovalSection(doc: DocumentContext): Section[] {
  const { answer } = doc;
  const since = answer.since_approval;
  if (since === null) return [];
  const moved =
    since.as_approved.standing !== answer.standing || since.as_approved.treatment !== answer.treatment;
  const found = since.changed.map(({ label, from, to }) =>
    clean(`${sentenceCase(label)}: ${from} then, ${to} now`),
  );
  const blocks = [
    ...figures(since, doc),
    ...(moved
      ? [
          paragraph(
            doc.say('since.moved', {
              before: headline(doc, since.as_approved),
              now: headline(doc, answer),
            }),
          ),
        ]
      : []),
    ...headed(doc.say('since.found'), found),
    ...headed(
      doc.say('since.gained'),
      since.gained.map(({ because }) => clean(because)),
    ),
    ...headed(
      doc.say('since.lost'),
      since.lost.map(({ because }) => clean(because)),
    ),
    ...verdict(since, doc),
  ];
  return blocks.length === 0 ? [] : [{ title: doc.say('since.title'), blocks }];
}

function figures({ hours, price }: SinceApproval, doc: DocumentContext): Block[] {
  const rows = [
    ...(hours === null ? [] : [{ name: 'Hours', cells: [quarters(hours.approved), quarters(hours.now)] }]),
    ...(price === null ? [] : [{ name: 'Price', cells: [doc.money(price.approved), doc.money(price.now)] }]),
  ];
  if (rows.length === 0) return [];
  return [{ kind: 'table', caption: 'Approved, and likely now', columns: ['What', 'Approved', 'Now'], rows }];
}

function verdict({ hours, price, needs_approval: again }: SinceApproval, doc: DocumentContext): Block[] {
  if (doc.way === undefined) return [paragraph(doc.say('since.no_work'))];
  if (hours === null && price === null) return [];
  return [paragraph(doc.say(again ? 'estimate.approve_again' : 'estimate.approved_still'))];
}

const headed = (text: string, items: readonly string[]): Block[] =>
  items.length === 0
    ? []
    : [
        { kind: 'subheading', text },
        { kind: 'list', items },
      ];
