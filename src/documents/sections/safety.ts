import type { Answer } from '../../decision/answer-model.ts';
import { isSafe } from '../../decision/safety.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean, listed, sentenceCase } from '../phrases.ts';

/** Whether a stop for a hazard holds: nothing then sends anybody to touch the quilt. */
export const isHazardous = ({ answer }: DocumentContext): boolean => answer.safety.stops.length > 0;

/** Whether the reason for a no lies in what has got into the quilt, and not in its cloth. */
export const declinesForHazard = ({ answer, papers }: DocumentContext): boolean =>
  answer.safety.stops.some(({ rule }) => papers.decision.outcome.standingRules[0]?.id === rule);

/** Whether nothing but hazards stands in the way. */
export const isHazardAlone = (doc: DocumentContext): boolean =>
  isHazardous(doc) &&
  doc.papers.decision.outcome.standingRules.every(({ effects }) => effects.hazard !== undefined);

/** Why no work may begin and nothing is agreed on, in a clause; undefined where safety stands in nobody's way. */
export function unsafeReason({ answer }: { readonly answer: Pick<Answer, 'safety'> }): string | undefined {
  if (isSafe(answer)) return undefined;
  const { stops, unanswered } = answer.safety;
  if (stops.length > 0)
    return `a hazard has to be dealt with first (${listed([...new Set(stops.map(({ hazard }) => hazard.replaceAll('_', ' ')))])})`;
  return `questions on safety have not been answered (${unanswered.map(({ label }) => label).join('; ')})`;
}

/** Stands before everything else on a paper; left out where safety stands in nobody's way. */
export function safetySection(doc: DocumentContext): Section[] {
  const { stops, unanswered, until_answered } = doc.answer.safety;
  if (isSafe(doc.answer)) return [];
  return [
    {
      title: doc.say('safety.title'),
      apart: true,
      blocks: [
        ...(stops.length === 0 ? [] : stopBlocks(doc)),
        ...(unanswered.length === 0
          ? []
          : [
              paragraph([{ strong: doc.say('safety.unanswered') }]),
              ...until_answered.map((text) => paragraph(clean(text))),
              paragraph(doc.say('safety.questions')),
              { kind: 'list', items: unanswered.map(({ label }) => sentenceCase(clean(label))) } as const,
            ]),
      ],
    },
  ];
}

const stopBlocks = (doc: DocumentContext): Block[] => [
  paragraph([{ strong: doc.say('safety.stop') }]),
  { kind: 'subheading', text: doc.say('safety.now') },
  { kind: 'list', items: untilSettled(doc) },
  ...settledBlocks(doc),
  { kind: 'subheading', text: doc.say('decline.others') },
  { kind: 'list', items: each(doc, ({ ask_others }) => ask_others) },
];

/** What to do with the closed bag: what the rules say of each hazard, then what holds for all. */
const untilSettled = (doc: DocumentContext): readonly string[] => [
  ...each(doc, ({ meanwhile }) => meanwhile),
  ...doc.items('meanwhile.hazard'),
];

/** Who settles it, and in what written form. */
export function settledBlocks(doc: DocumentContext): Block[] {
  const items = each(doc, ({ settled_by }) => settled_by);
  return items.length === 0
    ? []
    : [
        { kind: 'subheading', text: doc.say('safety.settled') },
        { kind: 'list', items },
      ];
}

type Stop = DocumentContext['answer']['safety']['stops'][number];

/** One text of every stop, each once. */
const each = ({ answer }: DocumentContext, text: (stop: Stop) => string | null): readonly string[] => [
  ...new Set(answer.safety.stops.flatMap((stop) => text(stop) ?? []).map(clean)),
];
