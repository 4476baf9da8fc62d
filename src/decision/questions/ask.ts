import type { QuiltCase } from '../../casebook/model.ts';
import { GRADES } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import { latestLook } from '../../findings/latest-look.ts';
import { surveyQuilt } from '../../findings/survey-quilt.ts';
import { normalQuantile } from '../../statistics/intervals.ts';
import { type Answer, type HoldsIn, type Recommendation, sameRecommendation } from '../answer-model.ts';
import type { DecisionContext } from '../context.ts';
import { confirm } from '../decide.ts';
import { evaluate } from '../evaluate.ts';
import type { Settled } from '../outcome.ts';
import { hazardStops, unansweredOn } from '../safety.ts';
import { countVariables } from './count-variables.ts';
import { checkNext, findCounterfactuals, wouldChange } from './counterfactuals.ts';
import { findingVariables, standingAlone } from './finding-variables.ts';
import { type CaseValue, type Variable, VariantEvaluator } from './variable.ts';

export type Questioned = Pick<Answer, 'would_change' | 'check_next' | 'holds_in'>;

/** Everything that could be otherwise about a case, on a case that stands alone. */
export function variablesOf(
  quiltCase: QuiltCase,
  { knowledge, practice }: DecisionContext,
): { alone: QuiltCase; variables: Variable[] } {
  const look = latestLook(quiltCase);
  const alone = standingAlone(look.case, look.opened);
  const style = { units: practice.settings.units, currency: practice.settings.currency };
  const quilt = surveyQuilt(latestLook(alone), knowledge.figures);
  return {
    alone,
    variables: [
      ...findingVariables(alone, knowledge, style),
      ...countVariables(quilt, knowledge.vocabulary, knowledge.figures),
    ],
  };
}

/**
 * What would change a settled answer, what to look at next, and how firm it is. Every change that is stated is confirmed
 * by json-rules-engine, as the answer itself is.
 */
export async function question(settled: Settled, context: DecisionContext): Promise<Questioned> {
  const { alone, variables: all } = variablesOf(settled.asGiven, context);
  const { findings } = context.knowledge.vocabulary;
  const isSafety = (id: string): boolean => findings.get(id)?.group === 'safety';
  const unanswered = unansweredOn(settled, findings).length > 0;
  // While a hazard stands nobody is sent to look at the quilt: only what the client can say or choose is left. Where
  // nobody has asked yet whether there is one, that is asked before anything that would have somebody open it.
  const variables =
    hazardStops(settled).length > 0
      ? all.filter(({ told }) => told)
      : unanswered
        ? all.filter(({ told, id }) => told || isSafety(id))
        : all;
  const variants = new VariantEvaluator(context);
  const found = findCounterfactuals(alone, variables, variants);
  for (const { turns } of found) {
    const changed = turns.reduce((sofar, { variable, value }) => variable.set(sofar, value), alone);
    await confirm(evaluate(changed, context), context);
  }
  return {
    would_change: found.map(wouldChange),
    check_next: checkNext(alone, variables, variants).sort(
      (one, other) => Number(isSafety(other.finding)) - Number(isSafety(one.finding)),
    ),
    holds_in: holdsIn(alone, all, variants, context.knowledge.figures),
  };
}

/**
 * In how many of a hundred plausible readings of the same quilt the answer is the same: grades a step off as often as
 * two graders differ, counts from their sampling distribution, figures within their spread, and what is not known as
 * likely as findings.yaml has it. Each reading draws from a fixed sequence, so the same case always gives the same count.
 * Questions on safety are not drawn: they stand open until they are answered.
 */
export function holdsIn(
  quiltCase: QuiltCase,
  variables: readonly Variable[],
  variants: VariantEvaluator,
  figures: Figures,
): HoldsIn {
  const base = variants.answer(quiltCase);
  const of = figures.number('readings.of');
  const known = variables.filter(
    (variable) => variable.who === 're-check' && variable.turns && variable.current !== undefined,
  );
  const unknown = variables.filter(
    (variable) => variable.turns && variable.current === undefined && variable.likely.length > 0,
  );
  const others = new Map<string, { verdict: Recommendation; times: number }>();
  let [same, unknowns] = [0, 0];
  for (let reading = 0; reading < of; reading += 1) {
    const readAnew = known.reduce((sofar, variable, index) => {
      const value = readAgain(variable, draw(reading, index), figures);
      return value === variable.current ? sofar : variable.set(sofar, value);
    }, quiltCase);
    const learned = unknown.reduce(
      (sofar, variable, index) =>
        variable.set(sofar, learnedOf(variable, draw(reading, known.length + index))),
      readAnew,
    );
    const verdict = variants.answer(learned);
    if (sameRecommendation(verdict, base)) same += 1;
    else {
      if (unknown.length > 0 && sameRecommendation(variants.answer(readAnew), base)) unknowns += 1;
      const key = `${verdict.standing} ${verdict.treatment}`;
      others.set(key, { verdict, times: (others.get(key)?.times ?? 0) + 1 });
    }
  }
  const otherwise = [...others.entries()]
    .sort(([a, x], [b, y]) => y.times - x.times || (a < b ? -1 : 1))
    .map(([, { verdict, times }]) => ({ ...verdict, times }));
  return { of, same, unknown: unknowns, otherwise };
}

/** What finding out might bring, each value as often as it is likely. */
function learnedOf({ likely }: Variable, u: number): CaseValue {
  let sofar = 0;
  const found = likely.find(({ weight }) => {
    sofar += weight;
    return u < sofar;
  });
  return (found ?? likely.at(-1))?.value ?? false;
}

/** What a second careful look might note, for a draw between 0 and 1. */
function readAgain(variable: Variable, u: number, figures: Figures): CaseValue {
  const { current, scale, variance } = variable;
  if (current === undefined) return false;
  if (typeof current === 'string' && (GRADES as readonly string[]).includes(current))
    return stepOff(current, u, figures);
  if (typeof current !== 'number' || scale === undefined || current === 0 || variable.cost < 2)
    return current;
  const inRange = (value: number): number => Math.min(scale.max, Math.max(scale.min, value));
  // A count: normal in the middle, never below nothing.
  if (variance !== undefined)
    return inRange(Math.max(0, Math.round(current + Math.sqrt(variance) * normalQuantile(u))));
  const spread = figures.figure('readings.figure').spread ?? 0;
  const value = current * Math.exp(spread * normalQuantile(u));
  return inRange(Math.round(value / scale.step) * scale.step);
}

/** One grade better or worse, each half as often as two graders differ. */
function stepOff(grade: string, u: number, figures: Figures): string {
  const off = figures.number('readings.one_step_off');
  const step = u < off / 2 ? -1 : u > 1 - off / 2 ? 1 : 0;
  const index = GRADES.indexOf(grade as (typeof GRADES)[number]) + step;
  return GRADES[Math.min(GRADES.length - 1, Math.max(0, index))] ?? grade;
}

/** A fixed sequence that fills the unit interval evenly for each variable: multiples of irrational steps. */
function draw(reading: number, variable: number): number {
  const step =
    Math.sqrt(PRIMES[variable % PRIMES.length] ?? 2) * (1 + Math.floor(variable / PRIMES.length) / 97);
  const x = (reading + 1) * step + 0.5;
  return Math.min(1 - 1e-6, Math.max(1e-6, x - Math.floor(x)));
}

const PRIMES = [
  2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101, 103,
];
