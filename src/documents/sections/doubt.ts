import type { Treatment } from '../../casebook/scales.ts';
import type { CheckNext, WouldChange } from '../../decision/answer-model.ts';
import type { Standing } from '../../rulebook/model.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean, sentenceCase } from '../phrases.ts';
import { isHazardAlone, isHazardous } from './safety.ts';

/** Of what is open no more than this is listed; the first have most power over the answer. */
const SHOWN = 8;

/** The smallest changes that lead elsewhere; left out where they were not worked out. */
export function changeSection(doc: DocumentContext): Section[] {
  const { would_change: changes, standing } = doc.answer;
  if (changes === null || (changes.length === 0 && standing !== 'decline')) return [];
  if (standing !== 'decline')
    return [{ title: 'What would change our advice', blocks: byWhom(changes, doc) }];
  const other = changes.filter((change) => !isYes(change));
  return [
    yesSection(doc, doc.say('decline.yes'), []),
    ...(other.length === 0
      ? []
      : [{ title: 'What would change our advice, but not to a yes', blocks: byWhom(other, doc) }]),
  ];
}

/**
 * Ways to a yes, whoever chooses or finds them: those verified by re-running; where that was not done, or somebody
 * else has to speak first, the studio's own words.
 */
export function yesSection(doc: DocumentContext, title: string, usual: readonly string[]): Section {
  const { would_change: changes, standing } = doc.answer;
  if (isHazardous(doc)) {
    // What else stands in the way is settled too; after a no for the cloth, nothing that the studio usually says holds.
    const others = isHazardAlone(doc) || standing === 'decline' ? [] : [list(usual)];
    return { title, blocks: [paragraph(doc.say('decline.yes_hazard')), ...others] };
  }
  const verified = (changes ?? []).filter(isYes);
  if (verified.length > 0) return { title, blocks: byWhom(verified, doc) };
  const sought = standing === 'decline' && changes !== null;
  return { title, blocks: sought ? [paragraph(doc.say('advice.no_way'))] : [list(usual)] };
}

const isYes = ({ standing }: WouldChange): boolean => standing === 'go_ahead';

const byWhom = (changes: readonly WouldChange[], doc: DocumentContext): Block[] => [
  ...named(
    'What you could choose',
    changes.filter(({ who }) => who === 'client'),
    doc,
  ),
  ...named(
    'What a second look could show',
    changes.filter(({ who }) => who !== 'client'),
    doc,
  ),
];

const named = (title: string, changes: readonly WouldChange[], doc: DocumentContext): Block[] =>
  changes.length === 0
    ? []
    : [
        { kind: 'subheading', text: title },
        { kind: 'list', items: changes.map((change) => changeSentence(change, doc)) },
      ];

function changeSentence(change: WouldChange, doc: DocumentContext): string {
  const [first, ...more] = change.changes.map(({ label, from, to }) => ({
    what: clean(sentenceCase(label)),
    to: clean(to),
    from: clean(from),
  }));
  const end = outcome(change, doc);
  if (first !== undefined && more.length === 0) return doc.say('advice.change', { ...first, outcome: end });
  const changes = change.changes
    .map(({ label, from, to }) => clean(`${sentenceCase(label)}: “${to}” instead of “${from}”.`))
    .join(' ');
  return doc.say('advice.changes', { changes, outcome: end });
}

function outcome(to: { standing: Standing; treatment: Treatment | null }, doc: DocumentContext): string {
  if (to.standing === 'go_ahead' && to.treatment !== null)
    return doc.say('advice.outcome_go_ahead', { treatment: doc.treatment(to.treatment) });
  return doc.say(
    to.standing === 'refer'
      ? 'advice.outcome_refer'
      : to.standing === 'decline'
        ? 'advice.outcome_decline'
        : 'advice.outcome_not_yet',
  );
}

/** What nobody knows yet that could change the answer, and how firm the answer is. */
export function unknownSection(doc: DocumentContext): Section {
  const { open, check_next: next, holds_in: holds, provisional } = doc.answer;
  const firmness: Block[] =
    holds === null
      ? []
      : [paragraph(doc.say('advice.holds', { of: String(holds.of), same: String(holds.same) }))];
  const title = 'What we do not know';
  if (next !== null && next.length > 0)
    return {
      title,
      blocks: [paragraph(doc.say('advice.open')), list(next.slice(0, SHOWN).map(checkWords)), ...firmness],
    };
  if (open.length > 0) {
    const rest = open.length - SHOWN;
    const shown = open.slice(0, SHOWN).map(({ label }) => sentenceCase(clean(label)));
    return {
      title,
      blocks: [
        paragraph(doc.say('advice.open')),
        list(rest > 0 ? [...shown, `and ${rest} more`] : shown),
        ...firmness,
      ],
    };
  }
  const none = provisional ? doc.say('advice.provisional') : doc.say('advice.firm');
  return { title, blocks: [paragraph(none), ...firmness] };
}

const checkWords = ({ label, how }: CheckNext): string => clean(`${sentenceCase(label)}. ${how}`);
const list = (items: readonly string[]): Block => ({ kind: 'list', items });
