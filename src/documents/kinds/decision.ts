import { isSafe } from '../../decision/safety.ts';
import { adviceSection, furtherReasons, planSection } from '../sections/advice.ts';
import { choiceSection, forHome, questionSection, saidSection } from '../sections/choice.ts';
import { conditionSection } from '../sections/condition.ts';
import { decidedSection, sinceApprovalSection } from '../sections/decided.ts';
import { changeSection, unknownSection } from '../sections/doubt.ts';
import { Evidence } from '../sections/evidence.ts';
import { optionsSection } from '../sections/options.ts';
import { isHazardous, safetySection } from '../sections/safety.ts';
import { frame, type Kind } from './frame.ts';

/** Object and question first, all ways on equal terms, our advice apart, then doubt, cautions and the client's choice. */
export const decisionSheet: Kind = {
  name: 'decision',
  summary: 'the ways to go, side by side, and our advice',
  questions: true,
  unfit: () => undefined,
  write(writing) {
    const { answer } = writing;
    const evidence = new Evidence();
    const advice = adviceSection(writing, evidence);
    const further = furtherReasons(writing, evidence);
    return frame(
      writing,
      writing.say('decision.title'),
      [
        ...safetySection(writing),
        conditionSection(writing, 'Your quilt as we found it'),
        questionSection(writing),
        optionsSection(writing),
        advice,
        ...decidedSection(writing),
        ...sinceApprovalSection(writing),
        ...planSection(writing),
        ...changeSection(writing),
        // While a hazard stands nothing sends anybody to look for more.
        ...(isHazardous(writing) ? [] : [unknownSection(writing)]),
        ...saidSection('Take care', forHome(answer.cautions.filter(({ first }) => !first))),
        ...saidSection('How we would work, and on what conditions', answer.conditions),
        ...saidSection('Questions to you', answer.asks),
        ...saidSection(writing.say('decline.others'), answer.ask_others),
        ...saidSection('What else we can offer', answer.offers),
        // Nobody chooses among ways to treat a quilt that nobody may touch yet.
        ...(isSafe(answer) ? [choiceSection(writing)] : []),
        ...further,
        ...evidence.section(),
      ],
      isSafe(answer) ? 'stands until' : undefined,
    );
  },
};
