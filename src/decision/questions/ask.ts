import type { QuiltCase } from '../../casebook/model.ts';
import { latestLook } from '../../findings/latest-look.ts';
import { surveyQuilt } from '../../findings/survey-quilt.ts';
import { inForce } from '../../rulebook/in-force.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import type { Answer } from '../answer-model.ts';
import { castVotes } from '../ballot.ts';
import { Force } from '../force.ts';
import { prepare, type StudioPractice } from '../prepare.ts';
import { recordVerdicts } from '../record-verdicts.ts';
import { settle } from '../settle.ts';
import { sameVerdict, type Verdict } from '../verdict.ts';
import { stageRules } from '../verdicts.ts';
import { checkNext } from './check-next.ts';
import { countKnobs } from './count-knobs.ts';
import { findingKnobs } from './finding-knobs.ts';
import { holdsIn } from './holds-in.ts';
import type { Knob } from './knob.ts';
import { standingAlone } from './set-finding.ts';
import { Trials } from './trials.ts';
import { type Flip, flips, wouldChange } from './would-change.ts';

export type Questioned = Pick<Answer, 'would_change' | 'check_next' | 'holds_in'>;

/** Everything that could be otherwise about a case, on a case that stands alone. */
export function knobsOf(
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
): { alone: QuiltCase; knobs: Knob[] } {
  const look = latestLook(quiltCase);
  const alone = standingAlone(look.case, look.opened);
  const style = { units: studio.settings.units, currency: studio.settings.currency };
  const quilt = surveyQuilt(latestLook(alone), knowledge.figures);
  return {
    alone,
    knobs: [
      ...findingKnobs(alone, knowledge.vocabulary, knowledge.rulebook, style),
      ...countKnobs(quilt, knowledge.vocabulary, knowledge.figures),
    ],
  };
}

/**
 * What would change the answer, what to look at next, and how firm it is. Searched with the fast evaluator; every
 * change that is stated has been decided anew by the decision of record, and one it does not confirm is left out.
 */
export async function questionAnswer(
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
  asOf: string,
): Promise<Questioned> {
  const current: Knowledge = { ...knowledge, rulebook: inForce(knowledge.rulebook, asOf) };
  const { alone, knobs } = knobsOf(quiltCase, current, studio);
  const trials = new Trials(current, studio, asOf);
  const confirmed: Flip[] = [];
  for (const flip of flips(alone, knobs, trials)) {
    const changed = flip.turns.reduce((sofar, { knob, value }) => knob.set(sofar, value), alone);
    if (sameVerdict(await decisionOfRecord(changed, current, studio, asOf), flip.verdict))
      confirmed.push(flip);
  }
  return {
    would_change: confirmed.map(wouldChange),
    check_next: checkNext(alone, knobs, trials),
    holds_in: holdsIn(alone, knobs, trials, current.figures),
  };
}

async function decisionOfRecord(
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
  asOf: string,
): Promise<Verdict> {
  const situation = prepare(quiltCase, knowledge, studio, asOf);
  const rules = stageRules(knowledge.rulebook);
  const verdicts = await recordVerdicts(situation, knowledge.rulebook);
  const { standing, treatment } = settle(situation, castVotes(situation, rules, new Force(rules, verdicts)));
  return { standing, treatment };
}
