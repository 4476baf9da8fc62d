import { TREATMENTS, type Treatment } from '../casebook/scales.ts';
import { type Rule, STAGES, type Stage } from '../rulebook/model.ts';
import type { Fate } from './settle.ts';
import type { Option, Situation } from './situation.ts';

/** What two plans are compared on, in this order; the first on which they differ decides. */
export type Step = Stage | 'wanted years' | 'new holes' | 'price' | 'order of treatments' | 'name';

export interface Ranked {
  readonly option: number;
}

export const STEPS: readonly Step[] = [
  ...STAGES,
  'wanted years',
  'new holes',
  'price',
  'order of treatments',
  'name',
];

export const newHolesInOldCloth = ({ estimates: { holes } }: Option): number =>
  holes.newOldFace + holes.newOldAllowance + holes.newOldBacking;

/** A plan's value on each step but the last, higher is better. */
const VALUES: readonly ((option: Option, fate: Fate, wantedYears: number | undefined) => number)[] = [
  ...STAGES.map(
    (stage) =>
      (_: Option, { prefers, avoids }: Fate) =>
        among(prefers, stage) - among(avoids, stage),
  ),
  ({ estimates }, _, wanted) => (wanted === undefined || estimates.life.middle >= wanted ? 1 : 0),
  (option) => -newHolesInOldCloth(option),
  ({ estimates }) => -estimates.price.likely,
  ({ plan }) => -TREATMENTS.indexOf(plan.treatment),
];

/** How many of the rules belong to a stage. */
function among(rules: readonly Rule[], stage: Stage): number {
  let count = 0;
  for (const { group } of rules) if (group === stage) count += 1;
  return count;
}

/** What a plan is compared by. Estimates are dear, so a value is worked out when two plans are first compared on it. */
class Key {
  readonly #values: (number | undefined)[] = [];
  readonly #option: Option;
  readonly #fate: Fate;
  readonly #wantedYears: number | undefined;

  constructor({ quiltCase }: Situation, option: Option, fate: Fate) {
    this.#option = option;
    this.#fate = fate;
    this.#wantedYears = quiltCase.client.wanted_years;
  }

  at(step: number): number {
    this.#values[step] ??= VALUES[step]?.(this.#option, this.#fate, this.#wantedYears) ?? 0;
    return this.#values[step];
  }
}

/** The first step on which two keys differ; past the end where they are equal and only the names can decide. */
function firstDifference(a: Key, b: Key): number {
  for (let step = 0; step < VALUES.length; step += 1) if (a.at(step) !== b.at(step)) return step;
  return VALUES.length;
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

/** Plans left, best first: stage by stage prefers minus avoids, then the wanted years, holes, price, and the order of treatments. */
export function rank(situation: Situation, fates: readonly Fate[]): Ranked[] {
  return entriesLeft(situation, fates, all)
    .sort(compare)
    .map(({ index }) => ({ option: index }));
}

/** The plan that ranks first among those `meant`, undefined where none is left. */
export function firstOf(
  situation: Situation,
  fates: readonly Fate[],
  meant: (option: number) => boolean = all,
): number | undefined {
  const level = narrowed(entriesLeft(situation, fates, meant), (left) => left.length <= 1);
  return level.sort(compare)[0]?.index;
}

/** The treatment of the plan that ranks first. Mostly told long before that plan is: not one year need be forecast. */
export function treatmentOfFirst(situation: Situation, fates: readonly Fate[]): Treatment | undefined {
  const of = ({ index }: Entry): Treatment | undefined => situation.options[index]?.plan.treatment;
  const level = narrowed(entriesLeft(situation, fates, all), ([first, ...others]) =>
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
  for (let step = 0; step < VALUES.length && !enough(level); step += 1) {
    const highest = Math.max(...level.map(({ key }) => key.at(step)));
    level = level.filter(({ key }) => key.at(step) === highest);
  }
  return level;
}

function entriesLeft(
  situation: Situation,
  fates: readonly Fate[],
  meant: (option: number) => boolean,
): Entry[] {
  return situation.options.flatMap((option, index) => {
    const fate = fates[index];
    return !meant(index) || fate === undefined || fate.removedBy.length > 0
      ? []
      : [{ index, name: option.plan.id, key: new Key(situation, option, fate) }];
  });
}

/** The step on which one plan was placed before another. */
export function decidingStep(
  situation: Situation,
  fates: readonly Fate[],
  better: number,
  worse: number,
): Step {
  const [a, b] = [situation.options[better], situation.options[worse]];
  const [fateA, fateB] = [fates[better], fates[worse]];
  if (a === undefined || b === undefined || fateA === undefined || fateB === undefined) return 'name';
  return STEPS[firstDifference(new Key(situation, a, fateA), new Key(situation, b, fateB))] ?? 'name';
}
