import type { QuiltCase } from '../../casebook/model.ts';
import { latestLook } from '../../findings/latest-look.ts';
import { surveyQuilt } from '../../findings/survey-quilt.ts';
import type { Answer } from '../answer-model.ts';
import type { DecisionContext } from '../context.ts';
import { confirm } from '../decide.ts';
import { evaluate } from '../evaluate.ts';
import type { Settled } from '../outcome.ts';
import { hazardStops } from '../safety.ts';
import { countKnobs } from './count-variables.ts';
import { checkNext, flips, wouldChange } from './counterfactuals.ts';
import { findingKnobs, standingAlone } from './finding-variables.ts';
import { holdsIn } from './robustness.ts';
import { type Knob, Trials } from './variable.ts';

export type Questioned = Pick<Answer, 'would_change' | 'check_next' | 'holds_in'>;

/** Everything that could be otherwise about a case, on a case that stands alone. */
export function knobsOf(
  quiltCase: QuiltCase,
  { knowledge, practice }: DecisionContext,
): { alone: QuiltCase; knobs: Knob[] } {
  const look = latestLook(quiltCase);
  const alone = standingAlone(look.case, look.opened);
  const style = { units: practice.settings.units, currency: practice.settings.currency };
  const quilt = surveyQuilt(latestLook(alone), knowledge.figures);
  return {
    alone,
    knobs: [
      ...findingKnobs(alone, knowledge, style),
      ...countKnobs(quilt, knowledge.vocabulary, knowledge.figures),
    ],
  };
}

/**
 * What would change a settled answer, what to look at next, and how firm it is. Every change that is stated is confirmed
 * by json-rules-engine, as the answer itself is.
 */
export async function question(settled: Settled, context: DecisionContext): Promise<Questioned> {
  const { alone, knobs: all } = knobsOf(settled.asGiven, context);
  // While a hazard stands nobody is sent to look at the quilt: only what the client can say or choose is left.
  const knobs = hazardStops(settled).length > 0 ? all.filter(({ told }) => told) : all;
  const trials = new Trials(context);
  const found = flips(alone, knobs, trials);
  for (const { turns } of found) {
    const changed = turns.reduce((sofar, { knob, value }) => knob.set(sofar, value), alone);
    await confirm(evaluate(changed, context), context);
  }
  return {
    would_change: found.map(wouldChange),
    check_next: checkNext(alone, knobs, trials),
    holds_in: holdsIn(alone, all, trials, context.knowledge.figures),
  };
}
