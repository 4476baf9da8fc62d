import type { Lattice } from './lattice.ts';
import type { LifeElement } from './model.ts';
import type { Posterior } from './posterior.ts';
import { logSum } from './ratios.ts';

/** An element with its evidence weighed over grades and wear so far. The plan's own wear is not in it yet. */
export interface Weighed {
  /** ln of the marginal likelihood of its evidence at each age node. */
  readonly logEvidence: readonly number[];
  /** At an age node: the probability of each grade that has a life, and its survival curve on the lattice. */
  at(
    age: number,
  ): readonly { readonly grade: number; readonly probability: number; readonly curve: Float64Array }[];
  /** True where no grade it may have has a life: no forecast is offered. */
  readonly hopeless: boolean;
}

/** `lives` is how many grades have a life; a grade beyond shows the damage of the worst that has one. */
export function weigh(
  grade: LifeElement['grade'],
  posterior: Posterior,
  grid: Lattice,
  lives: number,
): Weighed {
  const grades = gradeWeights(grade);
  const evidence = (one: number, age: number): number => posterior.logEvidence(Math.min(one, lives - 1), age);
  const logEvidence = grid.ages.map((_, age) =>
    logSum(grades.map((one) => Math.log(one.weight) + evidence(one.grade, age))),
  );
  const parts: ReturnType<Weighed['at']>[] = [];
  const part = (age: number): ReturnType<Weighed['at']> =>
    grades
      .filter((one) => one.grade < lives)
      .map((one) => ({
        grade: one.grade,
        probability: one.weight * Math.exp(evidence(one.grade, age) - (logEvidence[age] ?? 0)),
        curve: posterior.survival(one.grade, age),
      }));
  return {
    logEvidence,
    at: (age) => {
      const made = parts[age] ?? part(age);
      parts[age] = made;
      return made;
    },
    hopeless: grades.every((one) => one.grade >= lives),
  };
}

function gradeWeights(grade: LifeElement['grade']): { grade: number; weight: number }[] {
  if (typeof grade === 'number') return [{ grade, weight: 1 }];
  const entries = Object.entries(grade).filter(([, weight]) => weight > 0);
  const total = entries.reduce((sum, [, weight]) => sum + weight, 0);
  return entries.map(([index, weight]) => ({ grade: Number(index), weight: weight / total }));
}
