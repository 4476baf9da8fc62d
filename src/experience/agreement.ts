import type { Figures } from '../figures/model.ts';
import { cohenKappa, fleissKappa } from '../statistics/agreement.ts';
import { bootstrapInterval } from '../statistics/bootstrap.ts';
import { type Interval, wilson } from '../statistics/intervals.ts';
import { krippendorffAlpha, type Scale } from '../statistics/krippendorff.ts';
import type { Judged } from './judged.ts';

/** What one helper found on one case. */
export interface Surveyed {
  readonly case: string;
  readonly helper: string;
  readonly judged: readonly Judged[];
}

/** A thing judged by two helpers or more, on one finding: rank by helper. */
export interface JudgedTwice {
  readonly case: string;
  readonly thing: string;
  readonly ranks: ReadonlyMap<string, number>;
}

export interface Coefficient {
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
export const AGREEMENT_LEVEL = 0.95;

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
