import type { Treatment } from '../../casebook/scales.ts';
import type { CheckNext, WouldChange } from '../../decision/answer-model.ts';
import type { Standing } from '../../rulebook/model.ts';
import { clean } from '../clean.ts';
import type { Block, Section } from '../model.ts';
import { listed, sentenceCase } from '../phrases.ts';
import type { Writing } from '../writing.ts';

/** Of what is open no more than this is listed; the first have most power over the answer. */
const SHOWN = 8;

/** The smallest changes that lead elsewhere; left out where they were not worked out. */
export function changeSection(writing: Writing): Section[] {
  const changes = writing.answer.would_change;
  if (changes === null || changes.length === 0) return [];
  const mine = changes.filter(({ who }) => who === 'client');
  const ours = changes.filter(({ who }) => who !== 'client');
  return [
    {
      title: 'What would change our advice',
      blocks: [
        ...named('What you could choose', mine, writing),
        ...named('What a second look could show', ours, writing),
      ],
    },
  ];
}

const named = (title: string, changes: readonly WouldChange[], writing: Writing): Block[] =>
  changes.length === 0
    ? []
    : [
        { kind: 'subheading', text: title },
        { kind: 'list', items: changes.map((change) => changeSentence(change, writing)) },
      ];

export function changeSentence(change: WouldChange, writing: Writing): string {
  const changes = listed(
    change.changes.map(({ label, from, to }) => clean(`${label} were “${to}” instead of “${from}”`)),
  );
  return writing.say('advice.change', { changes, outcome: outcome(change, writing) });
}

function outcome(to: { standing: Standing; treatment: Treatment | null }, writing: Writing): string {
  if (to.standing === 'go_ahead' && to.treatment !== null)
    return writing.say('advice.outcome_go_ahead', { treatment: writing.treatment(to.treatment) });
  return writing.say(
    to.standing === 'refer'
      ? 'advice.outcome_refer'
      : to.standing === 'decline'
        ? 'advice.outcome_decline'
        : 'advice.outcome_not_yet',
  );
}

/** What nobody knows yet that could change the answer, and how firm the answer is. */
export function unknownSection(writing: Writing): Section {
  const { open, check_next: next, holds_in: holds, provisional } = writing.answer;
  const firmness: Block[] =
    holds === null
      ? []
      : [paragraph(writing.say('advice.holds', { of: String(holds.of), same: String(holds.same) }))];
  const title = 'What we do not know';
  if (next !== null && next.length > 0)
    return {
      title,
      blocks: [
        paragraph(writing.say('advice.open')),
        list(next.slice(0, SHOWN).map(checkWords)),
        ...firmness,
      ],
    };
  if (open.length > 0) {
    const rest = open.length - SHOWN;
    const shown = open.slice(0, SHOWN).map(({ label }) => sentenceCase(clean(label)));
    return {
      title,
      blocks: [
        paragraph(writing.say('advice.open')),
        list(rest > 0 ? [...shown, `and ${rest} more`] : shown),
        ...firmness,
      ],
    };
  }
  const none = provisional ? writing.say('advice.provisional') : writing.say('advice.firm');
  return { title, blocks: [paragraph(none), ...firmness] };
}

const checkWords = ({ label, how }: CheckNext): string => clean(`${sentenceCase(label)}. ${how}`);
const paragraph = (text: string): Block => ({ kind: 'paragraph', text });
const list = (items: readonly string[]): Block => ({ kind: 'list', items });
