import type { Figures } from '../figures/model.ts';
import { type Interval, wilson } from '../statistics/intervals.ts';
import { AGREEMENT_LEVEL } from './agreement.ts';
import type { Judged } from './judged.ts';

/** One helper's grades against grades agreed beforehand. */
export interface GradingReport {
  readonly helper: string;
  readonly graded: number;
  readonly same: number;
  readonly withinOne: number;
  readonly sameInterval: Interval;
  readonly withinOneInterval: Interval;
  readonly target: { readonly same: number; readonly withinOne: number };
  /** Whether both targets are met by what was graded; the intervals say how sure that is. */
  readonly met: boolean;
  /** Grades given otherwise, the furthest off first. */
  readonly missed: readonly { readonly case: string; readonly agreed: Judged; readonly given: Judged }[];
}

/** What one helper graded on one reference case, beside what was agreed. */
export interface ReferenceGrading {
  readonly case: string;
  readonly agreed: readonly Judged[];
  readonly given: readonly Judged[];
}

/**
 * A helper's grades against the reference set: every ordered finding and every unit's state. Within one counts the
 * ordered ones only where they differ by a step; unit states have no order, so another state is a miss by more than one.
 */
export const gradingReport = (
  helper: string,
  gradings: readonly ReferenceGrading[],
  figures: Figures,
): GradingReport | undefined => {
  const pairs = gradings.flatMap(({ case: of, agreed, given }) => {
    const mine = new Map(given.map((one) => [one.path.join('.'), one]));
    return agreed.flatMap((one) => {
      const answer = mine.get(one.path.join('.'));
      const graded = one.scale === 'ordinal' || one.finding === 'unit.state';
      return answer === undefined || !graded ? [] : [{ case: of, agreed: one, given: answer }];
    });
  });
  if (pairs.length === 0) return undefined;
  const off = (pair: (typeof pairs)[number]): number => {
    if (pair.agreed.value === pair.given.value) return 0;
    return pair.agreed.scale === 'ordinal' ? Math.abs(pair.agreed.rank - pair.given.rank) : 2;
  };
  const graded = pairs.length;
  const same = pairs.filter((pair) => off(pair) === 0).length;
  const withinOne = pairs.filter((pair) => off(pair) <= 1).length;
  const target = {
    same: figures.number('experience.target.same_grade'),
    withinOne: figures.number('experience.target.within_one'),
  };
  return {
    helper,
    graded,
    same,
    withinOne,
    sameInterval: wilson(same, graded, AGREEMENT_LEVEL),
    withinOneInterval: wilson(withinOne, graded, AGREEMENT_LEVEL),
    target,
    met: same / graded >= target.same && withinOne / graded >= target.withinOne,
    missed: pairs.filter((pair) => off(pair) > 0).sort((a, b) => off(b) - off(a)),
  };
};
