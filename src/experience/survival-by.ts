import type { Interval } from '../statistics/intervals.ts';
import {
  type Followed,
  type KaplanMeierStep,
  kaplanMeier,
  type LogRank,
  likelihoodRatioLimits,
  logRank,
} from '../statistics/kaplan-meier.ts';
import type { LifeEvidence } from './life-evidence.ts';

/** Time to the next repair in one group of quilts. Years. */
export interface SurvivalGroup {
  readonly name: string;
  readonly lives: readonly Followed[];
  readonly due: number;
  readonly steps: readonly (KaplanMeierStep & { readonly limits: Interval })[];
}

export const SURVIVAL_LEVEL = 0.95;

/** Kaplan–Meier by group with likelihood-ratio limits, the largest group first. A repair counts from when it was found. */
export const survivalBy = (
  evidence: readonly LifeEvidence[],
  nameOf: (one: LifeEvidence) => string | undefined,
): SurvivalGroup[] => {
  const groups = new Map<string, Followed[]>();
  for (const one of evidence) {
    const name = nameOf(one);
    if (name === undefined) continue;
    const { wholeAt, dueAt } = one.outcome;
    groups.set(name, [...(groups.get(name) ?? []), { time: dueAt ?? wholeAt, failed: dueAt !== undefined }]);
  }
  return [...groups]
    .map(([name, lives]): SurvivalGroup => {
      const steps = kaplanMeier(lives);
      return {
        name,
        lives,
        due: lives.filter(({ failed }) => failed).length,
        steps: steps.map((step) => ({
          ...step,
          limits: likelihoodRatioLimits(steps, step.time, SURVIVAL_LEVEL),
        })),
      };
    })
    .sort((a, b) => b.lives.length - a.lives.length || (a.name < b.name ? -1 : 1));
};

/** Still whole and in view just before a time. */
export const atRisk = ({ lives }: SurvivalGroup, years: number): number =>
  lives.filter(({ time }) => time >= years).length;

export interface Comparison {
  readonly a: string;
  readonly b: string;
  readonly test: LogRank;
  /** True where either group is so small that the test can show hardly anything. */
  readonly small: boolean;
}

/** The two largest groups against each other; undefined where there are not two, or nothing has come due. */
export const compareLargest = (
  groups: readonly SurvivalGroup[],
  smallGroup: number,
): Comparison | undefined => {
  const [a, b] = groups;
  if (a === undefined || b === undefined || a.due + b.due === 0) return undefined;
  return {
    a: a.name,
    b: b.name,
    test: logRank(a.lives, b.lives),
    small: Math.min(a.lives.length, b.lives.length) < smallGroup,
  };
};
