import type { Treatment } from '../casebook/scales.ts';
import { once } from '../quantities/once.ts';
import type { Rule, Standing } from '../rulebook/model.ts';
import type { Ballot, PlanVotes, Vote } from './ballot.ts';
import { firstOf, type Ranked, rank, treatmentOfFirst } from './rank.ts';
import type { Situation } from './situation.ts';

/** Gravest first: decline outranks refer, refer outranks not yet, not yet outranks going ahead. */
const STANDINGS: readonly Standing[] = ['decline', 'refer', 'not_yet', 'go_ahead'];

/** Whether one standing is graver than another. */
export const isGraver = (a: Standing, b: Standing): boolean => STANDINGS.indexOf(a) < STANDINGS.indexOf(b);

/** What the rules leave of one plan. */
export interface Fate {
  /** Rules that remove it, in stage order; empty where it is left. */
  readonly removedBy: readonly Rule[];
  readonly prefers: readonly Rule[];
  readonly avoids: readonly Rule[];
}

export interface Outcome {
  readonly standing: Standing;
  /** Rules that set the standing, gravest first; empty for going ahead, or when no plan was left. */
  readonly standingRules: readonly Rule[];
  /** True where the answer is decline because the rules left no plan. */
  readonly nothingLeft: boolean;
  readonly fates: readonly Fate[];
  /** Plans left, best first. */
  readonly ranking: readonly Ranked[];
  /** Index of the plan recommended, whatever the standing; undefined when none is left. */
  readonly best: number | undefined;
  /** Its treatment. */
  readonly preferred: Treatment | undefined;
  /** Null for refer and decline; for not yet, what comes after. */
  readonly treatment: Treatment | null;
}

/** Read an undecided verdict as this: false for the answer itself, true or false when asking what it might become. */
export type ReadUndecided = (rule: Rule) => boolean;

/**
 * From verdicts to an outcome. Every rule of every stage has spoken; each only ever removes plans or weighs those
 * that are left, so no stage brings back what an earlier one removed, and their order in the files is nothing.
 */
export function settle(
  situation: Situation,
  ballot: Ballot,
  readUndecided: ReadUndecided = never,
  without?: Rule,
): Outcome {
  const counted = (votes: readonly Vote[]): Rule[] =>
    votes
      .filter(({ rule, truth }) => rule !== without && (truth === true || readUndecided(rule)))
      .map(({ rule }) => rule);
  const standingRules = counted(ballot.standings).sort(byGravity);
  const fates = ballot.plans.map((votes) => new CountedFate(votes, counted));
  // Most questions are about the treatment alone; which plan is first, and in what order the others follow, is worked
  // out where it is asked for.
  const ranking = once(() => rank(situation, fates));
  const best = once(() => firstOf(situation, fates));
  const preferred = treatmentOfFirst(situation, fates);
  const concluded = conclude(standingRules, preferred);
  return {
    ...concluded,
    standingRules: concluded.nothingLeft ? [] : standingRules,
    fates,
    get ranking() {
      return ranking();
    },
    get best() {
      return best();
    },
    preferred,
  };
}

/** Counted when asked for: most plans are removed, and then nobody asks the rest. Thousands are made in a sweep. */
class CountedFate implements Fate {
  readonly #votes: PlanVotes;
  readonly #count: (votes: readonly Vote[]) => readonly Rule[];
  #removedBy: readonly Rule[] | undefined;
  #prefers: readonly Rule[] | undefined;
  #avoids: readonly Rule[] | undefined;

  constructor(votes: PlanVotes, count: (votes: readonly Vote[]) => readonly Rule[]) {
    this.#votes = votes;
    this.#count = count;
  }

  get removedBy(): readonly Rule[] {
    this.#removedBy ??= this.#count(this.#votes.removals);
    return this.#removedBy;
  }

  get prefers(): readonly Rule[] {
    this.#prefers ??= this.#count(this.#votes.prefers);
    return this.#prefers;
  }

  get avoids(): readonly Rule[] {
    this.#avoids ??= this.#count(this.#votes.avoids);
    return this.#avoids;
  }
}

/** Standing and treatment from the rules that set a standing, gravest first, and the treatment of the best plan left. */
export function conclude(
  standingRules: readonly Rule[],
  preferred: Treatment | undefined,
): Pick<Outcome, 'standing' | 'treatment' | 'nothingLeft'> {
  const ruled = standingRules[0]?.effects.stand ?? 'go_ahead';
  // Where the quilt goes to a specialist anyway, it is for the specialist to find a way.
  const nothingLeft = preferred === undefined && (ruled === 'go_ahead' || ruled === 'not_yet');
  const standing = nothingLeft ? 'decline' : ruled;
  const offered = standing === 'go_ahead' || standing === 'not_yet';
  return { standing, nothingLeft, treatment: offered && preferred !== undefined ? preferred : null };
}

export const byGravity = (a: Rule, b: Rule): number => gravity(a) - gravity(b);

const never: ReadUndecided = () => false;

/** 0 for the gravest standing a rule can set. */
const gravity = (rule: Rule): number => STANDINGS.indexOf(rule.effects.stand ?? 'go_ahead');
