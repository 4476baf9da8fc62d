import type { QuiltCase } from '../casebook/model.ts';
import { TREATMENTS, type Treatment } from '../casebook/scales.ts';
import { workIn } from '../plans/model.ts';
import { memoize } from '../quantities/memo.ts';
import { type Rule, STAGES, type Stage, type Standing } from '../rulebook/model.ts';
import type { ActiveRules } from './precedence.ts';
import type { Option, PlacedOption, Situation } from './situation.ts';
import type { Ballot, PlanVotes, Vote } from './votes.ts';

/** Gravest first: decline outranks refer, refer outranks not yet, not yet outranks going ahead. */
const STANDINGS: readonly Standing[] = ['decline', 'refer', 'not_yet', 'go_ahead'];

/** Whether one standing is graver than another. */
export const isGraver = (a: Standing, b: Standing): boolean => STANDINGS.indexOf(a) < STANDINGS.indexOf(b);

/** What the rules leave of one plan. */
export interface PlanOutcome {
  /** Rules that remove it, in stage order; empty where it is left. */
  readonly removedBy: readonly Rule[];
  readonly prefers: readonly Rule[];
  readonly avoids: readonly Rule[];
  /** Rules of a stage that prefer it, less those that avoid it. */
  weight(stage: Stage): number;
}

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
  const offered = standing === 'go_ahead' || standing === 'not_yet';
  return { standing, nothingLeft, treatment: offered && preferred !== undefined ? preferred : null };
}

const byGravity = (a: Rule, b: Rule): number => gravity(a) - gravity(b);

const never: ReadUndecided = () => false;

/** 0 for the gravest standing a rule can set. */
const gravity = (rule: Rule): number => STANDINGS.indexOf(rule.effects.stand ?? 'go_ahead');

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

/** What two plans are compared on, in this order; the first on which they differ decides. */
export type Step = Stage | 'work' | 'wanted years' | 'new holes' | 'price' | 'order of treatments' | 'name';

/** Stages that say how it is best done; the others say what is needed. */
const WAYS: readonly Stage[] = ['joining', 'means'];

interface Ranked {
  readonly option: number;
}

type Value = (option: Option, planOutcome: PlanOutcome, wantedYears: number | undefined) => number;
const weightOn = (stage: Stage): readonly [Stage, Value] => [
  stage,
  (_, planOutcome) => planOutcome.weight(stage),
];

/**
 * A plan's value on each step but the last, the name; higher is better. First what it needs, then the least work that
 * does it: how a thing is best done, and how long it would then last, is asked among plans that do as much as is needed.
 */
const COMPARED: readonly (readonly [Step, Value])[] = [
  ...STAGES.filter((stage) => !WAYS.includes(stage)).map(weightOn),
  ['work', ({ plan }) => -workIn(plan)],
  ...WAYS.map(weightOn),
  // To the year, and no further than is wanted: where none lasts so long, the longest comes nearest.
  [
    'wanted years',
    ({ estimator }, _, wanted) =>
      wanted === undefined ? 0 : Math.min(Math.round(wanted), Math.round(estimator.life().middle)),
  ],
  // Weighed by what the cloth bears: a hole in sound cotton is not one in fragile silk.
  ['new holes', ({ estimator }) => -estimator.holes().burden],
  ['price', ({ estimator }) => -estimator.price().likely],
  ['order of treatments', ({ plan }) => -TREATMENTS.indexOf(plan.treatment)],
];

/** What a plan is compared by. Estimates are dear, so a value is worked out when two plans are first compared on it. */
class Key {
  readonly #values: (number | undefined)[] = [];
  readonly #option: Option;
  readonly #planOutcome: PlanOutcome;
  readonly #wantedYears: number | undefined;

  constructor({ quiltCase }: Situation, option: Option, planOutcome: PlanOutcome) {
    this.#option = option;
    this.#planOutcome = planOutcome;
    this.#wantedYears = quiltCase.client.wanted_years;
  }

  at(step: number): number {
    this.#values[step] ??= COMPARED[step]?.[1](this.#option, this.#planOutcome, this.#wantedYears) ?? 0;
    return this.#values[step];
  }
}

/** The first step on which two keys differ; past the end where they are equal and only the names can decide. */
function firstDifference(a: Key, b: Key): number {
  for (let step = 0; step < COMPARED.length; step += 1) if (a.at(step) !== b.at(step)) return step;
  return COMPARED.length;
}

const compare = (a: Entry, b: Entry): number => {
  const step = firstDifference(a.key, b.key);
  return b.key.at(step) - a.key.at(step) || (a.name < b.name ? -1 : 1);
};

interface Entry {
  readonly index: number;
  readonly name: string;
  readonly key: Key;
}

/** Plans left, best first. */
export function rank(situation: Situation, planOutcomes: readonly PlanOutcome[]): Ranked[] {
  return entriesLeft(situation, planOutcomes, all)
    .sort(compare)
    .map(({ index }) => ({ option: index }));
}

/** The plan that ranks first among those `meant`, undefined where none is left. */
export function firstOf(
  situation: Situation,
  planOutcomes: readonly PlanOutcome[],
  meant: (option: number) => boolean = all,
): number | undefined {
  const level = narrowed(entriesLeft(situation, planOutcomes, meant), (left) => left.length <= 1);
  return level.sort(compare)[0]?.index;
}

/** The treatment of the plan that ranks first. Mostly told long before that plan is: not one year need be forecast. */
export function treatmentOfFirst(
  situation: Situation,
  planOutcomes: readonly PlanOutcome[],
): Treatment | undefined {
  const of = ({ index }: Entry): Treatment | undefined => situation.options[index]?.plan.treatment;
  const level = narrowed(entriesLeft(situation, planOutcomes, all), ([first, ...others]) =>
    others.every((other) => first !== undefined && of(other) === of(first)),
  );
  return level[0] && of(level[0]);
}

const all = (): boolean => true;

/**
 * Plans still level, step by step until that is `enough`, so that a value is worked out for no plan that an earlier step
 * has settled. The last step is the order of treatments.
 */
function narrowed(plans: Entry[], enough: (level: readonly Entry[]) => boolean): Entry[] {
  let level = plans;
  for (let step = 0; step < COMPARED.length && !enough(level); step += 1) {
    const highest = Math.max(...level.map(({ key }) => key.at(step)));
    level = level.filter(({ key }) => key.at(step) === highest);
  }
  return level;
}

function entriesLeft(
  situation: Situation,
  planOutcomes: readonly PlanOutcome[],
  meant: (option: number) => boolean,
): Entry[] {
  return situation.options.flatMap((option, index) => {
    const planOutcome = planOutcomes[index];
    return !meant(index) || planOutcome === undefined || planOutcome.removedBy.length > 0
      ? []
      : [{ index, name: option.plan.id, key: new Key(situation, option, planOutcome) }];
  });
}

/** The step on which one plan was placed before another. */
export function decidingStep(
  situation: Situation,
  planOutcomes: readonly PlanOutcome[],
  better: number,
  worse: number,
): Step {
  const [a, b] = [situation.options[better], situation.options[worse]];
  const [fateA, fateB] = [planOutcomes[better], planOutcomes[worse]];
  if (a === undefined || b === undefined || fateA === undefined || fateB === undefined) return 'name';
  return COMPARED[firstDifference(new Key(situation, a, fateA), new Key(situation, b, fateB))]?.[0] ?? 'name';
}
