import type { Figures } from '../figures/model.ts';
import { cohenKappa, fleissKappa, krippendorffAlpha, type Scale } from '../statistics/agreement.ts';
import { bootstrapInterval, clopperPearson, type Interval, wilson } from '../statistics/intervals.ts';
import type { Grading } from './grading.ts';

/** What one helper found on one case. */
export interface Surveyed {
  readonly case: string;
  readonly helper: string;
  readonly judged: readonly Grading[];
}

/** A thing judged by two helpers or more, on one finding: rank by helper. */
interface JudgedTwice {
  readonly case: string;
  readonly thing: string;
  readonly ranks: ReadonlyMap<string, number>;
}

interface Coefficient {
  readonly name: 'Krippendorff’s alpha' | 'Cohen’s kappa' | 'Fleiss’ kappa';
  /** Undefined where everybody gave one and the same answer: there is no disagreement for chance to explain. */
  readonly value: number | undefined;
  readonly interval: Interval | undefined;
}

/** How far helpers agree on one finding, over every case looked at. */
export interface FindingAgreement {
  readonly finding: string;
  readonly label: string;
  readonly scale: Scale;
  /** Things judged by two helpers or more. */
  readonly n: number;
  readonly same: number;
  /** On ordered scales: the furthest apart differ by one step at most. */
  readonly withinOne: number | undefined;
  readonly sameInterval: Interval;
  readonly withinOneInterval: Interval | undefined;
  /** Empty where too few things were judged twice for a coefficient to say anything. */
  readonly coefficients: readonly Coefficient[];
  readonly things: readonly JudgedTwice[];
}

/** Level of every interval of agreement. */
const AGREEMENT_LEVEL = 0.95;

/** Agreement finding by finding, in the order of the vocabulary. */
export const agreement = (surveys: readonly Surveyed[], figures: Figures): FindingAgreement[] => {
  const least = figures.number('experience.least_judged');
  return [...byFinding(surveys)].flatMap(([finding, { label, scale, things: all }]): FindingAgreement[] => {
    const things = all.filter(({ ranks }) => ranks.size >= 2);
    if (things.length === 0) return [];
    const n = things.length;
    const same = things.filter((thing) => spread(thing) === 0).length;
    const withinOne = scale === 'ordinal' ? things.filter((thing) => spread(thing) <= 1).length : undefined;
    return [
      {
        finding,
        label,
        scale,
        n,
        same,
        withinOne,
        sameInterval: wilson(same, n, AGREEMENT_LEVEL),
        withinOneInterval: withinOne === undefined ? undefined : wilson(withinOne, n, AGREEMENT_LEVEL),
        coefficients: n < least ? [] : coefficients(things, scale),
        things,
      },
    ];
  });
};

const spread = ({ ranks }: JudgedTwice): number => Math.max(...ranks.values()) - Math.min(...ranks.values());

interface Gathered {
  readonly label: string;
  readonly scale: Scale;
  readonly things: JudgedTwice[];
}

const byFinding = (surveys: readonly Surveyed[]): ReadonlyMap<string, Gathered> => {
  const found = new Map<string, Gathered>();
  const ranks = new Map<string, Map<string, number>>();
  for (const { case: of, helper, judged } of surveys) {
    for (const { finding, label, scale, thing, path, rank } of judged) {
      const gathered = found.get(finding) ?? { label, scale, things: [] };
      found.set(finding, gathered);
      const key = `${of} ${path.join('.')}`;
      let known = ranks.get(key);
      if (known === undefined) {
        known = new Map();
        ranks.set(key, known);
        gathered.things.push({ case: of, thing, ranks: known });
      }
      known.set(helper, rank);
    }
  }
  return found;
};

/** Alpha always; Cohen’s kappa where two helpers judged everything, Fleiss’ where the same number, three or more, did. */
const coefficients = (things: readonly JudgedTwice[], scale: Scale): Coefficient[] => {
  const helpers = [...new Set(things.flatMap(({ ranks }) => [...ranks.keys()]))].sort();
  const values = [...new Set(things.flatMap(({ ranks }) => [...ranks.values()]))].sort((a, b) => a - b);
  const alpha = (sample: readonly JudgedTwice[]): number | undefined =>
    krippendorffAlpha(
      helpers.map((helper) => sample.map(({ ranks }) => ranks.get(helper))),
      scale,
    );
  const with_ = (
    name: Coefficient['name'],
    statistic: (sample: readonly JudgedTwice[]) => number | undefined,
  ): Coefficient => ({
    name,
    value: statistic(things),
    interval: bootstrapInterval(things, statistic, AGREEMENT_LEVEL),
  });
  const found = [with_('Krippendorff’s alpha', alpha)];
  if (scale === 'ratio') return found;
  const raters = things[0]?.ranks.size ?? 0;
  if (things.some(({ ranks }) => ranks.size !== raters)) return found;
  const tally = (sample: readonly JudgedTwice[]): number[][] =>
    sample.map(({ ranks }) =>
      values.map((value) => [...ranks.values()].filter((rank) => rank === value).length),
    );
  const [one, other] = helpers;
  if (helpers.length === 2 && one !== undefined && other !== undefined) {
    const cohen = (sample: readonly JudgedTwice[]): number | undefined =>
      cohenKappa(
        values.map((a) =>
          values.map(
            (b) => sample.filter(({ ranks }) => ranks.get(one) === a && ranks.get(other) === b).length,
          ),
        ),
      ).kappa;
    return [...found, with_('Cohen’s kappa', cohen)];
  }
  return raters >= 3
    ? [...found, with_('Fleiss’ kappa', (sample) => fleissKappa(tally(sample)).kappa)]
    : found;
};

/** How one helper grades beside the others: harsher gives worse grades and higher counts of damage. */
export interface Drift {
  readonly helper: string;
  /** Grades and ordered choices judged by this helper and at least one other. */
  readonly n: number;
  readonly harsher: number;
  readonly softer: number;
  /** Mean steps above the mean of the others; positive is harsher. */
  readonly meanSteps: number;
  /** Exact 95 % interval for the share that is harsher among those that differ; undefined where none differ. */
  readonly interval: Interval | undefined;
  /** `harsher` or `softer` only where the interval leaves one half out. */
  readonly verdict: 'harsher' | 'softer' | 'no drift shown';
}

const LEVEL = 0.95;

/** Every helper against the others, over findings on an ordered scale from harmless to worse. */
export const drift = (agreements: readonly FindingAgreement[]): Drift[] => {
  const things = agreements.filter(({ scale }) => scale === 'ordinal').flatMap((one) => one.things);
  const helpers = [...new Set(things.flatMap(({ ranks }) => [...ranks.keys()]))].sort();
  return helpers.map((helper): Drift => {
    const steps = things.flatMap(({ ranks }) => {
      const mine = ranks.get(helper);
      const others = [...ranks].filter(([name]) => name !== helper).map(([, rank]) => rank);
      return mine === undefined || others.length === 0
        ? []
        : [mine - others.reduce((sum, rank) => sum + rank, 0) / others.length];
    });
    const harsher = steps.filter((step) => step > 0).length;
    const softer = steps.filter((step) => step < 0).length;
    const differing = harsher + softer;
    const interval = differing === 0 ? undefined : clopperPearson(harsher, differing, LEVEL);
    return {
      helper,
      n: steps.length,
      harsher,
      softer,
      meanSteps: steps.length === 0 ? 0 : steps.reduce((sum, step) => sum + step, 0) / steps.length,
      interval,
      verdict:
        interval !== undefined && interval.low > 0.5
          ? 'harsher'
          : interval !== undefined && interval.high < 0.5
            ? 'softer'
            : 'no drift shown',
    };
  });
};

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
  readonly missed: readonly { readonly case: string; readonly agreed: Grading; readonly given: Grading }[];
}

/** What one helper graded on one reference case, beside what was agreed. */
interface ReferenceGrading {
  readonly case: string;
  readonly agreed: readonly Grading[];
  readonly given: readonly Grading[];
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
