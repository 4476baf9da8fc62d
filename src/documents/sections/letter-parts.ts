import { clean } from '../clean.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import type { Writing } from '../writing.ts';
import { conditionRows } from './condition.ts';
import type { Evidence } from './evidence.ts';
import { isHazardous, untilSettled } from './safety.ts';

const list = (items: readonly string[]): Block => ({ kind: 'list', items });

/** Rows of the condition that a letter tells; the sheet has them all. */
const TOLD = ['What it is', 'Damage', 'Seams', 'Fabrics', 'Back', 'To be careful of'];
const NOTHING = [
  'Not known.',
  'Not known: they have not been counted.',
  'Not known: nobody has graded the cloth.',
];

/** Greeting and thanks. */
export function opening(writing: Writing, answer: string): Section {
  const { client } = writing.situation.quiltCase;
  return {
    blocks: [
      paragraph(
        client.ref === undefined
          ? writing.say('letter.greeting', { client: '' }).replace(/\s+,/, ',')
          : writing.say('letter.greeting'),
      ),
      paragraph(writing.say('letter.thanks')),
      paragraph(answer),
    ],
  };
}

/** What was seen, and the reason tied to it. */
export function sawSection(writing: Writing, evidence: Evidence, most: number): Section {
  const photos = writing.situation.quiltCase.survey.seen === 'photos';
  const { reasons, rather_than: others } = writing.answer;
  const told = conditionRows(writing).filter(
    ({ name, text }) => TOLD.includes(name) && !NOTHING.includes(String(text)),
  );
  // Where no rule set the standing, what removed each way is the reason.
  const shown = reasons.length > 0 ? reasons : others.flatMap((other) => other.reasons);
  const once = shown.filter((reason, index) => shown.findIndex(({ rule }) => rule === reason.rule) === index);
  return {
    title: 'What we saw, and why we answer as we do',
    blocks: [
      paragraph(writing.say(photos ? 'letter.seen_photos' : 'letter.seen_in_hand')),
      { kind: 'facts', caption: 'The quilt as we found it', rows: told },
      { kind: 'subheading', text: once.length === 1 ? 'Our reason' : 'Our reasons' },
      { kind: 'list', items: once.slice(0, most).map((reason) => evidence.quote(reason)) },
    ],
  };
}

/** What we can do instead; left out where there is nothing. */
export function offerSection(writing: Writing): Section[] {
  const { offers } = writing.answer;
  if (offers.length === 0) return [];
  return [{ title: 'What we can offer', blocks: [list(offers.map(({ text }) => clean(text)))] }];
}

export const othersSection = (writing: Writing): Section => ({
  title: writing.say('decline.others'),
  blocks: [list(writing.items('decline.other_list'))],
});

/** Care until something is decided. */
export function meanwhileSection(writing: Writing): Section {
  return {
    title: writing.say('decline.meanwhile'),
    blocks: [list(isHazardous(writing) ? untilSettled(writing) : writing.items('meanwhile.list'))],
  };
}

/** Where the door stands open, the way back, and who signs. */
export function closing(writing: Writing): Section {
  const { studio } = writing.papers;
  return {
    blocks: [
      paragraph([writing.say('letter.door'), writing.say('letter.fee')].join(' ')),
      paragraph([writing.say('letter.back'), writing.say('letter.photos')].join(' ')),
      paragraph(writing.say('letter.closing')),
      { kind: 'signatures', labels: [studio.name === undefined ? 'For the studio' : clean(studio.name)] },
    ],
  };
}
