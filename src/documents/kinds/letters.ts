import type { Standing } from '../../rulebook/model.ts';
import { clean } from '../clean.ts';
import { forHome, saidSection } from '../sections/choice.ts';
import { decidedSection } from '../sections/decided.ts';
import { unknownSection, yesSection } from '../sections/doubt.ts';
import { Evidence } from '../sections/evidence.ts';
import {
  closing,
  meanwhileSection,
  offerSection,
  opening,
  othersSection,
  sawSection,
} from '../sections/letter-parts.ts';
import { isHazardous, safetySection } from '../sections/safety.ts';
import { sinceApprovalSection } from '../sections/since-approval.ts';
import type { Writing } from '../writing.ts';
import { frame } from './frame.ts';
import type { Kind } from './kind.ts';

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

/** Whether the reason lies in what has got into the quilt, and not in its cloth. */
const declinesForHazard = ({ answer, papers }: Writing): boolean =>
  answer.safety.stops.some(({ rule }) => papers.decision.outcome.standingRules[0]?.id === rule);

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
      othersSection(writing),
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
      othersSection(writing),
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
    const after =
      answer.treatment === null
        ? writing.say('not_yet.after_open')
        : writing.say('not_yet.after', { treatment: writing.treatment(answer.treatment) });
    return frame(writing, writing.say('not_yet.title'), [
      opening(writing, writing.say('not_yet.answer')),
      ...safetySection(writing),
      sawSection(writing, evidence, Math.max(1, standing.size)),
      ...sinceApprovalSection(writing),
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
      ...(answer.open.length === 0 ? [] : [unknownSection(writing)]),
      ...decidedSection(writing),
      ...saidSection('Take care', forHome(answer.cautions)),
      ...(isHazardous(writing) ? [] : [meanwhileSection(writing)]),
      closing(writing),
      ...evidence.section(),
    ]);
  },
};
