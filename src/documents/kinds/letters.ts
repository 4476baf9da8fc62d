import { isSeenInHand } from '../../decision/safety.ts';
import type { Standing } from '../../rulebook/model.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean } from '../phrases.ts';
import { forHome, saidSection } from '../sections/choice.ts';
import { conditionRows } from '../sections/condition.ts';
import { decidedSection, sinceApprovalSection } from '../sections/decided.ts';
import { unknownSection, yesSection } from '../sections/doubt.ts';
import { Evidence } from '../sections/evidence.ts';
import {
  declinesForHazard,
  isHazardAlone,
  isHazardous,
  safetySection,
  untilSettled,
} from '../sections/safety.ts';
import type { Writing } from '../writing.ts';
import { frame, type Kind } from './frame.ts';

const REASONS = 3;

const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  go_ahead: 'go ahead',
  not_yet: 'not yet',
  refer: 'refer to a specialist',
  decline: 'decline',
};

const only =
  (standing: Standing) =>
  (writing: Writing): string | undefined =>
    writing.answer.standing === standing
      ? undefined
      : `the answer is "${STANDING_WORDS[writing.answer.standing]}", and this letter says "${STANDING_WORDS[standing]}"`;

/** A kind no, tied to what was found. */
export const declineLetter: Kind = {
  name: 'decline',
  summary: 'a letter that declines, and says what can be done instead',
  questions: true,
  unfit: only('decline'),
  write(writing) {
    const evidence = new Evidence();
    const { answer } = writing;
    return frame(writing, writing.say('decline.title'), [
      opening(writing, writing.say(declinesForHazard(writing) ? 'decline.answer_hazard' : 'decline.answer')),
      ...safetySection(writing),
      sawSection(writing, evidence, REASONS),
      ...sinceApprovalSection(writing),
      {
        title: writing.say('decline.harm'),
        blocks: [
          {
            kind: 'list',
            items: writing.items(isHazardous(writing) ? 'decline.harm_list_hazard' : 'decline.harm_list'),
          },
        ],
      },
      ...offerSection(writing),
      ...othersSection(writing),
      yesSection(writing, writing.say('decline.yes'), writing.items('decline.yes_list')),
      ...decidedSection(writing),
      ...saidSection('Take care', forHome(answer.cautions)),
      ...(isHazardous(writing) ? [] : [meanwhileSection(writing)]),
      closing(writing),
      ...evidence.section(),
    ]);
  },
};

/** Somebody else first. */
export const referLetter: Kind = {
  name: 'refer',
  summary: 'a letter that sends the quilt to a specialist first',
  questions: true,
  unfit: only('refer'),
  write(writing) {
    const evidence = new Evidence();
    const { answer } = writing;
    return frame(writing, writing.say('refer.title'), [
      opening(writing, writing.say('refer.answer')),
      ...safetySection(writing),
      sawSection(writing, evidence, REASONS),
      ...sinceApprovalSection(writing),
      ...othersSection(writing),
      ...offerSection(writing),
      yesSection(writing, writing.say('refer.yes'), writing.items('refer.yes_list')),
      ...decidedSection(writing),
      ...saidSection('Take care', forHome(answer.cautions)),
      ...(isHazardous(writing) ? [] : [meanwhileSection(writing)]),
      closing(writing),
      ...evidence.section(),
    ]);
  },
};

/** Not a no: what has to be settled, and what comes after. */
export const notYetLetter: Kind = {
  name: 'not-yet',
  summary: 'a letter that says what has to be settled first',
  questions: true,
  unfit: only('not_yet'),
  write(writing) {
    const evidence = new Evidence();
    const { answer } = writing;
    const standing = new Set(writing.papers.decision.outcome.standingRules.map(({ id }) => id));
    const settle = answer.conditions.filter(({ rule }) => standing.has(rule)).map(({ text }) => clean(text));
    // Of work that is done nothing is still to be approved, chosen or priced.
    const finished = writing.finished !== undefined;
    const after =
      answer.treatment === null || finished
        ? writing.say('not_yet.after_open')
        : writing.say('not_yet.after', { treatment: writing.treatment(answer.treatment) });
    return frame(writing, writing.say(finished ? 'refer.title' : 'not_yet.title'), [
      opening(writing, writing.say(finished ? 'not_yet.answer_finished' : 'not_yet.answer')),
      ...safetySection(writing),
      sawSection(writing, evidence, Math.max(1, standing.size)),
      ...(finished ? [] : sinceApprovalSection(writing)),
      {
        title: writing.say('not_yet.settle'),
        blocks: [
          ...(settle.length === 0 ? [] : [{ kind: 'list', items: settle } as const]),
          { kind: 'paragraph', text: after },
        ],
      },
      ...saidSection(writing.say('not_yet.questions'), answer.asks),
      ...offerSection(writing),
      yesSection(writing, writing.say('decline.yes'), writing.items('not_yet.yes_list')),
      ...(answer.open.length === 0 || isHazardous(writing) ? [] : [unknownSection(writing)]),
      ...(finished ? [] : decidedSection(writing)),
      ...saidSection('Take care', forHome(answer.cautions)),
      ...(isHazardous(writing) ? [] : [meanwhileSection(writing)]),
      closing(writing),
      ...evidence.section(),
    ]);
  },
};

const list = (items: readonly string[]): Block => ({ kind: 'list', items });

/** Rows of the condition that a letter tells; the sheet has them all. */
const TOLD = ['What it is', 'Damage', 'Seams', 'Fabrics', 'Back', 'To be careful of'];
const NOTHING = [
  'Not known.',
  'Not known: they have not been counted.',
  'Not known: nobody has graded the cloth.',
];

/** Greeting and thanks. */
function opening(writing: Writing, answer: string): Section {
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
function sawSection(writing: Writing, evidence: Evidence, most: number): Section {
  const photos = writing.situation.quiltCase.survey.seen === 'photos';
  const looked = writing.facts['finding.looked_over'] !== false;
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
      paragraph(
        writing.say(looked ? (photos ? 'letter.seen_photos' : 'letter.seen_in_hand') : 'letter.not_looked'),
      ),
      { kind: 'facts', caption: 'The quilt as we found it', rows: told },
      { kind: 'subheading', text: once.length === 1 ? 'Our reason' : 'Our reasons' },
      { kind: 'list', items: once.slice(0, most).map((reason) => evidence.quote(reason)) },
    ],
  };
}

/** What we can do instead; left out where there is nothing. */
function offerSection(writing: Writing): Section[] {
  const { offers } = writing.answer;
  if (offers.length === 0) return [];
  return [{ title: 'What we can offer', blocks: [list(offers.map(({ text }) => clean(text)))] }];
}

/** Whom else to ask about the cloth, those the rules name first; of a hazard alone its own section says so. */
function othersSection(writing: Writing): Section[] {
  if (isHazardAlone(writing)) return [];
  const named = writing.answer.ask_others.map(({ text }) => clean(text));
  const isNamed = (text: string): boolean => named.some((each) => text.startsWith(each.replace(/\.$/, '')));
  const others = writing.items('decline.other_list').filter((text) => !isNamed(text));
  return [{ title: writing.say('decline.others'), blocks: [list([...named, ...others])] }];
}

/** Care until something is decided. */
function meanwhileSection(writing: Writing): Section {
  return {
    title: writing.say('decline.meanwhile'),
    blocks: [list(isHazardous(writing) ? untilSettled(writing) : writing.items('meanwhile.list'))],
  };
}

/** How it comes back; what was seen in photographs never left its owner. */
function wayBack(writing: Writing): Block[] {
  if (isHazardous(writing)) return [paragraph(writing.say('letter.back_hazard'))];
  if (!isSeenInHand(writing.facts)) return [];
  return [paragraph([writing.say('letter.back'), writing.say('letter.photos')].join(' '))];
}

/** Where the door stands open, the way back, and who signs. */
function closing(writing: Writing): Section {
  const { studio } = writing.papers;
  return {
    blocks: [
      paragraph([writing.say('letter.door'), writing.say('letter.fee')].join(' ')),
      ...wayBack(writing),
      paragraph(writing.say('letter.closing')),
      { kind: 'signatures', labels: [studio.name === undefined ? 'For the studio' : clean(studio.name)] },
    ],
  };
}
