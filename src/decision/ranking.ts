import { TREATMENTS, type Treatment } from '../casebook/scales.ts';
import { workIn } from '../plans/model.ts';
import { type Rule, STAGES, type Stage } from '../rulebook/model.ts';
import type { Option, Situation } from './situation.ts';

/** What the rules leave of one plan. */
export interface PlanOutcome {
  /** Rules that remove it, in stage order; empty where it is left. */
  readonly removedBy: readonly Rule[];
  readonly prefers: readonly Rule[];
  readonly avoids: readonly Rule[];
  /** Rules of a stage that prefer it, less those that avoid it. */
  weight(stage: Stage): number;
}

/** What two plans are compared on, in this order; the first on which they differ decides. */
export type Step = Stage | 'work' | 'wanted years' | 'new holes' | 'price' | 'order of treatments' | 'name';

/** Stages that say how it is best done; the others say what is needed. */
const WAYS: readonly Stage[] = ['joining', 'means'];

export interface Ranked {
  readonly option: number;
}

type Value = (option: Option, planOutcome: PlanOutcome, wantedYears: number | undefined) => number;
const weightOn = (stage: Stage): readonly [Stage, Value] => [
  stage,
  (_, planOutcome) => planOutcome.weight(stage),
];

/**
 * A plan's value on each step but the last, the name; higher is better. First what it needs, then the least work that
 * does it: how a thing is best done, and how long it would then last, is asked among plans that do as much as is needed.
 */
const COMPARED: readonly (readonly [Step, Value])[] = [
  ...STAGES.filter((stage) => !WAYS.includes(stage)).map(weightOn),
  ['work', ({ plan }) => -workIn(plan)],
  ...WAYS.map(weightOn),
  // To the year, and no further than is wanted: where none lasts so long, the longest comes nearest.
  [
    'wanted years',
    ({ estimator }, _, wanted) =>
      wanted === undefined ? 0 : Math.min(Math.round(wanted), Math.round(estimator.life().middle)),
  ],
  // Weighed by what the cloth bears: a hole in sound cotton is not one in fragile silk.
  ['new holes', ({ estimator }) => -estimator.holes().burden],
  ['price', ({ estimator }) => -estimator.price().likely],
  ['order of treatments', ({ plan }) => -TREATMENTS.indexOf(plan.treatment)],
];

/** What a plan is compared by. Estimates are dear, so a value is worked out when two plans are first compared on it. */
class Key {
  readonly #values: (number | undefined)[] = [];
  readonly #option: Option;
  readonly #left: PlanOutcome;
  readonly #wantedYears: number | undefined;

  constructor({ quiltCase }: Situation, option: Option, left: PlanOutcome) {
    this.#option = option;
    this.#left = left;
    this.#wantedYears = quiltCase.client.wanted_years;
  }

  at(step: number): number {
    this.#values[step] ??= COMPARED[step]?.[1](this.#option, this.#left, this.#wantedYears) ?? 0;
    return this.#values[step];
  }
}

/** The first step on which two keys differ; past the end where they are equal and only the names can decide. */
function firstDifference(a: Key, b: Key): number {
  for (let step = 0; step < COMPARED.length; step += 1) if (a.at(step) !== b.at(step)) return step;
  return COMPARED.length;
}

const compare = (a: Entry, b: Entry): number => {
  const step = firstDifference(a.key, b.key);
  return b.key.at(step) - a.key.at(step) || (a.name < b.name ? -1 : 1);
};

interface Entry {
  readonly index: number;
  readonly name: string;
  readonly key: Key;
}

/** Plans left, best first. */
export function rank(situation: Situation, planOutcomes: readonly PlanOutcome[]): Ranked[] {
  return entriesLeft(situation, planOutcomes, all)
    .sort(compare)
    .map(({ index }) => ({ option: index }));
}

/** The plan that ranks first among those `meant`, undefined where none is left. */
export function firstOf(
  situation: Situation,
  planOutcomes: readonly PlanOutcome[],
  meant: (option: number) => boolean = all,
): number | undefined {
  const level = narrowed(entriesLeft(situation, planOutcomes, meant), (left) => left.length <= 1);
  return level.sort(compare)[0]?.index;
}

/** The treatment of the plan that ranks first. Mostly told long before that plan is: not one year need be forecast. */
export function treatmentOfFirst(
  situation: Situation,
  planOutcomes: readonly PlanOutcome[],
): Treatment | undefined {
  const of = ({ index }: Entry): Treatment | undefined => situation.options[index]?.plan.treatment;
  const level = narrowed(entriesLeft(situation, planOutcomes, all), ([first, ...others]) =>
    others.every((other) => first !== undefined && of(other) === of(first)),
  );
  return level[0] && of(level[0]);
}

const all = (): boolean => true;

/**
 * Plans still level, step by step until that is `enough`, so that a value is worked out for no plan that an earlier step
 * has settled. The last step is the order of treatments.
 */
function narrowed(plans: Entry[], enough: (level: readonly Entry[]) => boolean): Entry[] {
  let level = plans;
  for (let step = 0; step < COMPARED.length && !enough(level); step += 1) {
    const highest = Math.max(...level.map(({ key }) => key.at(step)));
    level = level.filter(({ key }) => key.at(step) === highest);
  }
  return level;
}

function entriesLeft(
  situation: Situation,
  planOutcomes: readonly PlanOutcome[],
  meant: (option: number) => boolean,
): Entry[] {
  return situation.options.flatMap((option, index) => {
    const planOutcome = planOutcomes[index];
    return !meant(index) || planOutcome === undefined || planOutcome.removedBy.length > 0
      ? []
      : [{ index, name: option.plan.id, key: new Key(situation, option, planOutcome) }];
  });
}

/** The step on which one plan was placed before another. */
export function decidingStep(
  situation: Situation,
  planOutcomes: readonly PlanOutcome[],
  better: number,
  worse: number,
): Step {
  const [a, b] = [situation.options[better], situation.options[worse]];
  const [left, right] = [planOutcomes[better], planOutcomes[worse]];
  if (a === undefined || b === undefined || left === undefined || right === undefined) return 'name';
  return COMPARED[firstDifference(new Key(situation, a, left), new Key(situation, b, right))]?.[0] ?? 'name';
}
