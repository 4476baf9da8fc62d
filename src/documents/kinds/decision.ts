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
  write(doc) {
    const { answer } = doc;
    const evidence = new Evidence();
    const advice = adviceSection(doc, evidence);
    const further = furtherReasons(doc, evidence);
    return frame(
      doc,
      doc.say('decision.title'),
      [
        ...safetySection(doc),
        conditionSection(doc, 'Your quilt as we found it'),
        questionSection(doc),
        optionsSection(doc),
        advice,
        ...decidedSection(doc),
        ...sinceApprovalSection(doc),
        ...planSection(doc),
        ...changeSection(doc),
        // While a hazard stands nothing sends anybody to look for more.
        ...(isHazardous(doc) ? [] : [unknownSection(doc)]),
        ...saidSection('Take care', forHome(answer.cautions.filter(({ first }) => !first))),
        ...saidSection('How we would work, and on what conditions', answer.conditions),
        ...saidSection('Questions to you', answer.asks),
        ...saidSection('What else we can offer', answer.offers),
        // Nobody chooses among ways to treat a quilt that nobody may touch yet.
        ...(isSafe(answer) ? [choiceSection(doc)] : []),
        ...further,
        ...evidence.section(),
      ],
      isSafe(answer) ? 'stands until' : undefined,
    );
  },
};
