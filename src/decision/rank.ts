import { TREATMENTS } from '../findings/scales.ts';
import { STAGES, type Stage } from '../rulebook/model.ts';
import type { Fate } from './settle.ts';
import type { Option, Situation } from './situation.ts';

/** What two plans are compared on, in this order; the first on which they differ decides. */
export type Step = Stage | 'wanted years' | 'new holes' | 'price' | 'order of treatments' | 'name';

export interface Ranked {
  readonly option: number;
}

/** A plan's value on every step but the last: higher is better. */
type Key = readonly number[];

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

function keyOf(situation: Situation, option: Option, fate: Fate): Key {
  const wanted = situation.quiltCase.client.wanted_years;
  const weigh = (stage: Stage): number =>
    fate.prefers.filter((rule) => rule.group === stage).length -
    fate.avoids.filter((rule) => rule.group === stage).length;
  return [
    ...STAGES.map(weigh),
    wanted === undefined || option.estimates.life.middle >= wanted ? 1 : 0,
    -newHolesInOldCloth(option),
    -option.estimates.price.likely,
    -TREATMENTS.indexOf(option.plan.treatment),
  ];
}

/** The first step on which two keys differ; past the end where they are equal and only the names can decide. */
const firstDifference = (a: Key, b: Key): number => {
  const step = a.findIndex((mine, index) => mine !== b[index]);
  return step < 0 ? a.length : step;
};

const compare = (a: Entry, b: Entry): number => {
  const step = firstDifference(a.key, b.key);
  return (b.key[step] ?? 0) - (a.key[step] ?? 0) || (a.name < b.name ? -1 : 1);
};

interface Entry {
  readonly index: number;
  readonly name: string;
  readonly key: Key;
}

/** Plans left, best first: stage by stage prefers minus avoids, then the wanted years, holes, price, and the order of treatments. */
export function rank(situation: Situation, fates: readonly Fate[]): Ranked[] {
  const left = situation.options.flatMap((option, index) => {
    const fate = fates[index];
    return fate === undefined || fate.removedBy.length > 0
      ? []
      : [{ index, name: option.plan.id, key: keyOf(situation, option, fate) }];
  });
  return left.sort(compare).map(({ index }) => ({ option: index }));
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
  return STEPS[firstDifference(keyOf(situation, a, fateA), keyOf(situation, b, fateB))] ?? 'name';
}
