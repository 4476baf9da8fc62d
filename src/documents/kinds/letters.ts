import { isSeenInHand } from '../../decision/safety.ts';
import { STANDING_WORDS } from '../../decision/words.ts';
import type { Standing } from '../../rulebook/model.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section } from '../model.ts';
import { clean } from '../phrases.ts';
import { forHome, saidSection } from '../sections/choice.ts';
import { conditionRows } from '../sections/condition.ts';
import { decidedSection, sinceApprovalSection } from '../sections/decided.ts';
import { unknownSection, yesSection } from '../sections/doubt.ts';
import { Evidence } from '../sections/evidence.ts';
import { declinesForHazard, isHazardAlone, isHazardous, safetySection } from '../sections/safety.ts';
import { frame, type Kind } from './frame.ts';

const REASONS = 3;

const only =
  (standing: Standing) =>
  (doc: DocumentContext): string | undefined =>
    doc.answer.standing === standing
      ? undefined
      : `the answer is "${STANDING_WORDS[doc.answer.standing]}", and this letter says "${STANDING_WORDS[standing]}"`;

/** A kind no, tied to what was found. */
export const declineLetter: Kind = {
  name: 'decline',
  summary: 'a letter that declines, and says what can be done instead',
  questions: true,
  unfit: only('decline'),
  write(doc) {
    const evidence = new Evidence();
    const { answer } = doc;
    return frame(doc, doc.say('decline.title'), [
      opening(doc, doc.say(declinesForHazard(doc) ? 'decline.answer_hazard' : 'decline.answer')),
      ...safetySection(doc),
      sawSection(doc, evidence, REASONS),
      ...sinceApprovalSection(doc),
      {
        title: doc.say('decline.harm'),
        blocks: [
          {
            kind: 'list',
            items: doc.items(isHazardous(doc) ? 'decline.harm_list_hazard' : 'decline.harm_list'),
          },
        ],
      },
      ...offerSection(doc),
      ...othersSection(doc),
      yesSection(doc, doc.say('decline.yes'), doc.items('decline.yes_list')),
      ...decidedSection(doc),
      ...saidSection('Take care', forHome(answer.cautions)),
      ...meanwhileSection(doc),
      closing(doc),
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
  write(doc) {
    const evidence = new Evidence();
    const { answer } = doc;
    return frame(doc, doc.say('refer.title'), [
      opening(doc, doc.say('refer.answer')),
      ...safetySection(doc),
      sawSection(doc, evidence, REASONS),
      ...sinceApprovalSection(doc),
      ...othersSection(doc),
      ...offerSection(doc),
      yesSection(doc, doc.say('refer.yes'), doc.items('refer.yes_list')),
      ...decidedSection(doc),
      ...saidSection('Take care', forHome(answer.cautions)),
      ...meanwhileSection(doc),
      closing(doc),
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
  write(doc) {
    const evidence = new Evidence();
    const { answer } = doc;
    const standing = new Set(doc.papers.decision.outcome.standingRules.map(({ id }) => id));
    const settle = answer.conditions.filter(({ rule }) => standing.has(rule)).map(({ text }) => clean(text));
    // Of work that is done nothing is still to be approved, chosen or priced.
    const finished = doc.finished !== undefined;
    const after =
      answer.treatment === null || finished
        ? doc.say('not_yet.after_open')
        : doc.say('not_yet.after', { treatment: doc.treatment(answer.treatment) });
    return frame(doc, doc.say(finished ? 'refer.title' : 'not_yet.title'), [
      opening(doc, doc.say(finished ? 'not_yet.answer_finished' : 'not_yet.answer')),
      ...safetySection(doc),
      sawSection(doc, evidence, Math.max(1, standing.size)),
      ...(finished ? [] : sinceApprovalSection(doc)),
      {
        title: doc.say('not_yet.settle'),
        blocks: [
          ...(settle.length === 0 ? [] : [{ kind: 'list', items: settle } as const]),
          { kind: 'paragraph', text: after },
        ],
      },
      ...saidSection(doc.say('not_yet.questions'), answer.asks),
      ...offerSection(doc),
      yesSection(doc, doc.say('decline.yes'), doc.items('not_yet.yes_list')),
      ...(answer.open.length === 0 || isHazardous(doc) ? [] : [unknownSection(doc)]),
      ...(finished ? [] : decidedSection(doc)),
      ...saidSection('Take care', forHome(answer.cautions)),
      ...meanwhileSection(doc),
      closing(doc),
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
function opening(doc: DocumentContext, answer: string): Section {
  const { client } = doc.situation.quiltCase;
  return {
    blocks: [
      paragraph(
        client.ref === undefined
          ? doc.say('letter.greeting', { client: '' }).replace(/\s+,/, ',')
          : doc.say('letter.greeting'),
      ),
      paragraph(doc.say('letter.thanks')),
      paragraph(answer),
    ],
  };
}

/** How it was seen: nobody looked at photographs where there are none and nothing was graded or counted from any. */
function seen({
  situation: { quiltCase },
}: DocumentContext): 'letter.seen_in_hand' | 'letter.seen_photos' | 'letter.seen_told' {
  const { survey, photos } = quiltCase;
  if (survey.seen !== 'photos') return 'letter.seen_in_hand';
  const looked = [...photos, survey.families, survey.units, survey.counts].some((each) => each !== undefined);
  return looked ? 'letter.seen_photos' : 'letter.seen_told';
}

/** What was seen, and the reason tied to it. */
function sawSection(doc: DocumentContext, evidence: Evidence, most: number): Section {
  const { reasons, rather_than: others } = doc.answer;
  const told = conditionRows(doc).filter(
    ({ name, text }) => TOLD.includes(name) && !NOTHING.includes(String(text)),
  );
  // Where no rule set the standing, what removed each way is the reason.
  const shown = reasons.length > 0 ? reasons : others.flatMap((other) => other.reasons);
  const once = shown.filter((reason, index) => shown.findIndex(({ rule }) => rule === reason.rule) === index);
  return {
    title: 'What we saw, and why we answer as we do',
    blocks: [
      paragraph(doc.say(seen(doc))),
      { kind: 'facts', caption: 'The quilt as we found it', rows: told },
      { kind: 'subheading', text: once.length === 1 ? 'Our reason' : 'Our reasons' },
      { kind: 'list', items: once.slice(0, most).map((reason) => evidence.quote(reason)) },
    ],
  };
}

/** What we can do instead; left out where there is nothing. */
function offerSection(doc: DocumentContext): Section[] {
  const { offers } = doc.answer;
  if (offers.length === 0) return [];
  return [{ title: 'What we can offer', blocks: [list(offers.map(({ text }) => clean(text)))] }];
}

/** Whom else to ask about the cloth, those the rules name first; of a hazard alone its own section says so. */
function othersSection(doc: DocumentContext): Section[] {
  if (isHazardAlone(doc)) return [];
  const named = doc.answer.ask_others.map(({ text }) => clean(text));
  const isNamed = (text: string): boolean => named.some((each) => text.startsWith(each.replace(/\.$/, '')));
  const others = doc.items('decline.other_list').filter((text) => !isNamed(text));
  return [{ title: doc.say('decline.others'), blocks: [list([...named, ...others])] }];
}

/** Care until something is decided: of a hazard its own section says it, and of what others may claim the caution does. */
function meanwhileSection(doc: DocumentContext): Section[] {
  if (isHazardous(doc) || doc.situation.facts['finding.claim_of_others'] === true) return [];
  return [{ title: doc.say('decline.meanwhile'), blocks: [list(doc.items('meanwhile.list'))] }];
}

/** How it comes back; what was seen in photographs never left its owner. */
function wayBack(doc: DocumentContext): Block[] {
  if (isHazardous(doc)) return [paragraph(doc.say('letter.back_hazard'))];
  if (!isSeenInHand(doc.facts)) return [];
  return [paragraph([doc.say('letter.back'), doc.say('letter.photos')].join(' '))];
}

/** Where the door stands open, the way back, and who signs. */
function closing(doc: DocumentContext): Section {
  const { studio } = doc.papers;
  return {
    blocks: [
      paragraph([doc.say('letter.door'), doc.say('letter.fee')].join(' ')),
      ...wayBack(doc),
      paragraph(doc.say('letter.closing')),
      { kind: 'signatures', labels: [studio.name === undefined ? 'For the studio' : clean(studio.name)] },
    ],
  };
}
