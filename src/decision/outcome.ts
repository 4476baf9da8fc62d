import type { QuiltCase } from '../casebook/model.ts';
import type { Treatment } from '../casebook/scales.ts';
import { memoize } from '../quantities/memo.ts';
import type { Rule, Stage, Standing } from '../rulebook/model.ts';
import type { ActiveRules } from './precedence.ts';
import { firstOf, type PlanOutcome, type Ranked, rank, treatmentOfFirst } from './ranking.ts';
import type { PlacedOption, Situation } from './situation.ts';
import type { Ballot, PlanVotes, Vote } from './votes.ts';

export interface Outcome {
  readonly standing: Standing;
  /** Rules that set the standing, gravest first; empty for going ahead, or when no plan was left. */
  readonly standingRules: readonly Rule[];
  /** True where the answer is decline because the rules left no plan. */
  readonly nothingLeft: boolean;
  readonly planOutcomes: readonly PlanOutcome[];
  /** Plans left, best first. */
  readonly ranking: readonly Ranked[];
  /** Index of the plan recommended, whatever the standing; undefined when none is left. */
  readonly best: number | undefined;
  /** Its treatment. */
  readonly preferred: Treatment | undefined;
  /** Null for refer and decline; for not yet, what comes after. */
  readonly treatment: Treatment | null;
}

/** Gravest first: decline outranks refer, refer outranks not yet, not yet outranks going ahead. */
const STANDINGS: readonly Standing[] = ['decline', 'refer', 'not_yet', 'go_ahead'];

/** Whether one standing is graver than another. */
export const isGraver = (a: Standing, b: Standing): boolean => STANDINGS.indexOf(a) < STANDINGS.indexOf(b);

/** 0 for the gravest standing a rule can set. */
const gravity = (rule: Rule): number => STANDINGS.indexOf(rule.effects.stand ?? 'go_ahead');

const byGravity = (a: Rule, b: Rule): number => gravity(a) - gravity(b);

/** Read an undecided verdict as this: false for the answer itself, true or false when asking what it might become. */
type ReadUndecided = (rule: Rule) => boolean;

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
  const planOutcomes = ballot.plans.map((votes) => new CountedOutcome(votes, counted));
  // Most questions are about the treatment alone; which plan is first, and in what order the others follow, is worked
  // out where it is asked for.
  const ranking = memoize(() => rank(situation, planOutcomes));
  const best = memoize(() => firstOf(situation, planOutcomes));
  const preferred = treatmentOfFirst(situation, planOutcomes);
  const concluded = conclude(standingRules, preferred);
  return {
    ...concluded,
    standingRules: concluded.nothingLeft ? [] : standingRules,
    planOutcomes,
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
class CountedOutcome implements PlanOutcome {
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

  weight(stage: Stage): number {
    const { prefers, avoids } = this.#votes.weighing(stage);
    return this.#count(prefers).length - this.#count(avoids).length;
  }
}

/** Standing and treatment from the rules that set a standing, gravest first, and the treatment of the best plan left. */
function conclude(
  standingRules: readonly Rule[],
  preferred: Treatment | undefined,
): Pick<Outcome, 'standing' | 'treatment' | 'nothingLeft'> {
  const ruled = standingRules[0]?.effects.stand ?? 'go_ahead';
  // Where the quilt goes to a specialist anyway, it is for the specialist to find a way.
  const nothingLeft = preferred === undefined && (ruled === 'go_ahead' || ruled === 'not_yet');
  const standing = nothingLeft ? 'decline' : ruled;
  const untold = standingRules.some(({ effects }) => effects.noTreatmentYet !== undefined);
  const offered = !untold && (standing === 'go_ahead' || standing === 'not_yet');
  return { standing, nothingLeft, treatment: offered && preferred !== undefined ? preferred : null };
}

const never: ReadUndecided = () => false;

/** A case evaluated: all that an explanation is read from, and that questions start from. */
export interface Settled {
  /** The case with its later looks still apart. */
  readonly asGiven: QuiltCase;
  readonly situation: Situation;
  readonly rules: readonly Rule[];
  readonly active: ActiveRules;
  readonly ballot: Ballot;
  readonly outcome: Outcome;
  /** Rules of the stop stage that set a standing here, whether or not a graver one outranks them. */
  readonly stops: readonly Rule[];
  /**
   * The same with no more done to its units than this use asks for, where that would have been refused: more is done to
   * them than the use alone would call for, so that the answer can be better.
   */
  readonly gentler: Settled | undefined;
  /** The case as it was known when an estimate was approved; undefined where nobody has looked since. */
  readonly whenApproved: Settled | undefined;
}

/** The plan recommended; none where the answer is to refer or to decline. */
export function recommendedOption({
  situation,
  outcome,
}: Pick<Settled, 'situation' | 'outcome'>): PlacedOption | undefined {
  const index = outcome.treatment === null ? undefined : outcome.best;
  const option = index === undefined ? undefined : situation.options[index];
  return index === undefined || option === undefined ? undefined : { index, option };
}
