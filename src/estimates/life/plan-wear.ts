import type { Spell } from '../../casebook/model.ts';
import { GRADES, type Use } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import { type Fact, highest, isSpan, lowest } from '../../findings/fact.ts';
import type { Plan } from '../../plans/model.ts';
import { FAILING, type GradeWeights, type LifeInput, WEAK } from './model.ts';

/** Uses in which a quilt gets washed. */
const WASHED: ReadonlySet<Use> = new Set(['guest_bed', 'regular_bed', 'child_bed']);

export const hasNewBacking = ({ backing }: Plan): boolean => backing === 'add' || backing === 'replace';

/** What one element meets under a plan, on top of what the whole quilt meets. */
export interface Meets {
  /** Held by a backing or support that carries its load. */
  readonly supported: boolean;
  /** Stitched by the plan's new lines or resewing. */
  readonly stitched: boolean;
  readonly strongBesideWeak: boolean;
  readonly selfDestructing: boolean;
}

/** How much faster an element wears than plain use would have it, by grade: the multipliers of life, turned over. */
export function elementWear(meets: Meets, context: LifeContext, figures: Figures): GradeWeights {
  const times = (id: string): number => figures.number(`life.times.${id}`);
  let life = 1;
  if (context.directLight === true && context.use !== 'storage') life *= times('direct_light');
  if (context.washing === 'machine' && WASHED.has(context.use)) life *= times('machine_wash');
  if (meets.selfDestructing) life *= times('self_destructing_dye');
  const holes = context.perforation ?? 0;
  if (meets.stitched && holes > figures.number('life.limit.perforation')) life *= times('perforation');
  return Object.fromEntries(
    GRADES.map((_, grade) => {
      if (grade < WEAK || grade >= FAILING) return [grade, 1 / life];
      const beside = meets.strongBesideWeak ? times('strong_beside_weak') : 1;
      return [grade, 1 / (life * beside * supportFactor(grade, meets.supported, context.use, figures))];
    }),
  );
}

/** Some wear until due already takes a full support for granted: there it is its absence that counts. */
function supportFactor(grade: number, supported: boolean, use: Use, figures: Figures): number {
  const factor = figures.number('life.times.full_support');
  const contained = figures.has(`life.support_contained.${GRADES[grade]}.${use}`);
  if (contained) return supported ? 1 : 1 / factor;
  return supported ? factor : 1;
}

const bounds = (fact: Fact): { lo: number; hi: number } | undefined => {
  if (typeof fact === 'number') return { lo: fact, hi: fact };
  return fact !== undefined && isSpan(fact) ? { lo: lowest(fact), hi: highest(fact) } : undefined;
};

/** What unfastened gaps beyond the batting's rating do to the whole quilt; both ways where nobody can tell. */
export function gapAlternatives(
  { gaps, batting }: Plan,
  figures: Figures,
): { alternatives: NonNullable<LifeInput['alternatives']>; assumptions: string[] } {
  const wear = 1 / figures.number('life.times.beyond_rated_gap');
  const after = bounds(gaps.after);
  const rated = bounds(gaps.rated);
  if (batting === 'none' || (after !== undefined && rated !== undefined && after.hi <= rated.lo)) {
    return { alternatives: [{ weight: 1, wear: 1 }], assumptions: [] };
  }
  if (after !== undefined && rated !== undefined && after.lo > rated.hi) {
    return {
      alternatives: [{ weight: 1, wear }],
      assumptions: ['The layers hang further between fastenings than the batting is rated for.'],
    };
  }
  const odds = figures.number('life.odds.beyond_rated_gap');
  return {
    alternatives: [
      { weight: 1 - odds, wear: 1 },
      { weight: odds, wear },
    ],
    assumptions: [
      'Whether the layers hang further between fastenings than the batting is rated for is not known; both are counted.',
    ],
  };
}

/** Wear so far: rate × years summed over a known history, else the years since it was made, else not even those. */
export function pastWear(
  { history, ageYears }: Pick<LifeContext, 'history' | 'ageYears'>,
  figures: Figures,
): { wear: LifeInput['wear']; assumptions: string[] } {
  if (history === undefined || history.length === 0) {
    return {
      wear: { madeYearsAgo: ageYears },
      assumptions: ['Nobody could say how it was used, so the wear so far is a wide guess from its age.'],
    };
  }
  const sum = history.reduce((wear, { use, years }) => wear + years * figures.number(`life.rate.${use}`), 0);
  const told = history.reduce((all, { years }) => all + years, 0);
  const missing = ageYears === undefined ? 0 : ageYears - told;
  return {
    wear: { known: Math.max(figures.number('life.unknown_wear.known_least'), sum) },
    assumptions:
      missing >= 1 ? [`The ${Math.round(missing)} years its history leaves out count as no wear.`] : [],
  };
}

/** What bears on remaining life beyond the plan and the survey. Undefined is unknown. */
export interface LifeContext {
  /** Intended use. A use that is refused is reckoned as storage. */
  readonly use: Use;
  readonly history: readonly Spell[] | undefined;
  /** Years since it was made. */
  readonly ageYears: number | undefined;
  /** How it will be washed; by hand where nothing else is said. */
  readonly washing: Spell['washing'];
  /** Whether it will lie or hang in direct window light; taken as not where nothing else is said. */
  readonly directLight: boolean | undefined;
  /** Highest share of a stitched line taken by holes, from the plan's hole estimate. */
  readonly perforation: number | undefined;
  readonly wantedYears: number | undefined;
  /** The vocabulary's chances of each grade, best first, for cloth nobody has graded; equal where not given. */
  readonly gradeOdds: readonly number[] | undefined;
}
