import type { Spell } from '../../casebook/model.ts';
import type { Use } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import { type Fact, highest, isSpan, lowest } from '../../findings/fact.ts';
import type { Plan } from '../../plans/model.ts';
import type { Alternative, PastWear } from './model.ts';

/** Something assumed, with the sentences that say so. */
export interface Assumed<T> {
  readonly value: T;
  readonly assumptions: readonly string[];
}

/** What bears on remaining life beyond the plan and the survey. Undefined is unknown. */
export interface LifeContext {
  /** Intended use. A use that is refused is reckoned as storage. */
  readonly use: Use;
  readonly history: readonly Spell[] | undefined;
  /** Years since it was made. */
  readonly ageYears: number | undefined;
  readonly washing: Spell['washing'];
  /** Whether it will lie or hang in direct window light. */
  readonly directLight: boolean | undefined;
}

/** Both of two ways, the second with this chance; the one where the chance is none or all. */
const either = (chance: number, wear: number): readonly Alternative[] =>
  [
    { weight: 1 - chance, wear: 1 },
    { weight: chance, wear },
  ].filter(({ weight }) => weight > 0);

const AS_IS = either(0, 1);

/** Each alternative of the one with each of the other. */
export const together = (
  one: readonly Alternative[],
  other: readonly Alternative[],
): readonly Alternative[] =>
  one.flatMap((a) => other.map((b) => ({ weight: a.weight * b.weight, wear: a.wear * b.wear })));

/** What washing and light do to the pace of wear, plan or no plan; where nobody knows, a mixture of what may be. */
export function carePace(
  { use, washing, directLight }: Pick<LifeContext, 'use' | 'washing' | 'directLight'>,
  figures: Figures,
): Assumed<readonly Alternative[]> {
  const harder = 1 / figures.number('life.times.machine_wash');
  const inSun = 1 / figures.number('life.times.direct_light');
  /** One way of care: nothing where this use never meets it, such as washing in storage. */
  const way = (id: string, known: boolean | undefined, wear: number): readonly Alternative[] | undefined => {
    const odds = `life.odds.${id}.${use}`;
    return figures.has(odds)
      ? either(known === undefined ? figures.number(odds) : known ? 1 : 0, wear)
      : undefined;
  };
  const machine = washing === undefined || washing === 'unknown' ? undefined : washing === 'machine';
  const washed = way('machine_wash', machine, harder);
  const lit = way('direct_light', directLight, inSun);
  // the rate of a child's bed contains the machine
  const by = use === 'child_bed' ? harder : 1;
  return {
    value: together(washed?.map(({ weight, wear }) => ({ weight, wear: wear / by })) ?? AS_IS, lit ?? AS_IS),
    assumptions: [
      ...(use === 'display' ? ['Shown for months at a time, with rests, in low light.'] : []),
      ...(washed && machine === undefined
        ? ['How it will be washed is not known; both by hand and by machine are counted.']
        : []),
      ...(lit && directLight === undefined
        ? ['Whether sun will fall on it is not known; both are counted.']
        : []),
    ],
  };
}

const bounds = (fact: Fact): { lo: number; hi: number } | undefined => {
  if (typeof fact === 'number') return { lo: fact, hi: fact };
  return fact !== undefined && isSpan(fact) ? { lo: lowest(fact), hi: highest(fact) } : undefined;
};

/** What unfastened gaps beyond the batting's rating do to the whole quilt; both ways where nobody can tell. */
export function gapPace(
  { gaps, batting }: Plan,
  use: Use,
  figures: Figures,
): Assumed<readonly Alternative[]> {
  const after = bounds(gaps.after);
  const rated = bounds(gaps.rated);
  const within = after !== undefined && rated !== undefined && after.hi <= rated.lo;
  if (use === 'storage' || batting === 'none' || within) return { value: AS_IS, assumptions: [] };
  const id = use === 'display' ? 'beyond_rated_gap_on_display' : 'beyond_rated_gap';
  const beyond = after !== undefined && rated !== undefined && after.lo > rated.hi;
  const chance = beyond ? 1 : figures.number('life.odds.beyond_rated_gap');
  return {
    value: either(chance, 1 / figures.number(`life.times.${id}`)),
    assumptions: [
      beyond
        ? 'The layers hang further between fastenings than the batting is rated for.'
        : 'Whether the layers hang further between fastenings than the batting is rated for is not known; both are counted.',
    ],
  };
}

/** Wear so far: rate × years summed over a known history, else the years since it was made, else not even those. */
export function pastWear(
  { history, ageYears }: Pick<LifeContext, 'history' | 'ageYears'>,
  figures: Figures,
): Assumed<PastWear> {
  if (history === undefined || history.length === 0) {
    return {
      value: { madeYearsAgo: ageYears },
      assumptions: ['Nobody could say how it was used, so the wear so far is a wide guess from its age.'],
    };
  }
  const sum = history.reduce((wear, { use, years }) => wear + years * figures.number(`life.rate.${use}`), 0);
  const told = history.reduce((all, { years }) => all + years, 0);
  const missing = ageYears === undefined ? 0 : ageYears - told;
  return {
    value: { known: Math.max(figures.number('life.unknown_wear.known_least'), sum) },
    assumptions:
      missing >= 1 ? [`The ${Math.round(missing)} years its history leaves out count as no wear.`] : [],
  };
}
