import { judge } from '../rulebook/comparisons.ts';
import { both, either, not, type Truth } from '../rulebook/kleene.ts';
import { type PlanTarget, type Rule, STAGES, type Stage } from '../rulebook/model.ts';
import type { ActiveRules } from './precedence.ts';
import type { Option, Situation } from './situation.ts';

/** A rule and how far it speaks here; rules that do not speak are left out. */
export interface Vote {
  readonly rule: Rule;
  readonly truth: true | undefined;
}

/** What the rules say of one plan; asked when somebody counts, because most plans are removed and then nobody asks the rest. */
export interface PlanVotes extends Weighing {
  readonly removals: readonly Vote[];
  /** The votes of one stage: plans that an earlier stage sets apart need not be weighed on a later one. */
  weighing(stage: Stage): Weighing;
}

/** Votes for a plan and against it, in stage order. */
interface Weighing {
  readonly prefers: readonly Vote[];
  readonly avoids: readonly Vote[];
}

/** What all rules say, in stage order: worked out once, then counted as often as a question asks for. */
export interface Ballot {
  readonly standings: readonly Vote[];
  readonly plans: readonly PlanVotes[];
}

/** Rules of the stop stage that set a standing, whether or not a graver one outranks them. */
export const stopsIn = ({ standings }: Ballot): Rule[] =>
  standings.flatMap(({ rule, truth }) => (rule.group === 'stop' && truth === true ? [rule] : []));

export function collectVotes(situation: Situation, rules: readonly Rule[], active: ActiveRules): Ballot {
  const speaking = rules.filter((rule) => !active.neverHolds(rule));
  const removing = speaking.filter(
    ({ effects }) => effects.ruleOut !== undefined || effects.callFor !== undefined,
  );
  const preferring = byStage(speaking.filter(({ effects }) => effects.prefer !== undefined));
  const avoiding = byStage(speaking.filter(({ effects }) => effects.avoid !== undefined));
  const standing = speaking.filter(({ effects }) => effects.stand !== undefined);
  return {
    standings: votes(standing, (rule) => active.of(rule, undefined)),
    plans: situation.options.map(
      (option, index) => new CountedVotes({ removing, preferring, avoiding }, option, index, active),
    ),
  };
}

/** Rules that may say something of a plan, by what they would say. */
interface Voters {
  readonly removing: readonly Rule[];
  readonly preferring: ByStage;
  readonly avoiding: ByStage;
}

type ByStage = ReadonlyMap<Stage, readonly Rule[]>;

const byStage = (rules: readonly Rule[]): ByStage =>
  new Map(STAGES.map((stage) => [stage, rules.filter(({ group }) => group === stage)]));

/** The votes on one plan, taken when somebody asks. */
class CountedVotes implements PlanVotes {
  readonly #voters: Voters;
  readonly #option: Option;
  readonly #index: number;
  readonly #active: ActiveRules;
  #removals: readonly Vote[] | undefined;
  readonly #weighing = new Map<Stage, Weighing>();

  constructor(voters: Voters, option: Option, index: number, active: ActiveRules) {
    this.#voters = voters;
    this.#option = option;
    this.#index = index;
    this.#active = active;
  }

  get removals(): readonly Vote[] {
    this.#removals ??= votes(this.#voters.removing, (rule) =>
      either(this.#speaks(rule, rule.effects.ruleOut), this.#misses(rule, rule.effects.callFor)),
    );
    return this.#removals;
  }

  get prefers(): readonly Vote[] {
    return STAGES.flatMap((stage) => this.weighing(stage).prefers);
  }

  get avoids(): readonly Vote[] {
    return STAGES.flatMap((stage) => this.weighing(stage).avoids);
  }

  weighing(stage: Stage): Weighing {
    const known = this.#weighing.get(stage);
    if (known !== undefined) return known;
    const { preferring, avoiding } = this.#voters;
    const weighing: Weighing = {
      prefers: votes(preferring.get(stage) ?? [], (rule) => this.#speaks(rule, rule.effects.prefer)),
      avoids: votes(avoiding.get(stage) ?? [], (rule) => this.#speaks(rule, rule.effects.avoid)),
    };
    this.#weighing.set(stage, weighing);
    return weighing;
  }

  /** Whether the plan is meant is cheap to tell and mostly not so; then nobody need ask whether the rule holds. */
  #speaks(rule: Rule, target: PlanTarget | undefined): Truth {
    const meant = target === undefined ? false : meets(target, this.#option);
    return meant === false ? false : both(meant, this.#active.of(rule, this.#index));
  }

  /** Whether the plan lacks what a rule calls for. */
  #misses(rule: Rule, called: PlanTarget | undefined): Truth {
    const has = called === undefined ? true : meets(called, this.#option);
    return has === true ? false : both(not(has), this.#active.of(rule, this.#index));
  }
}

function votes(rules: readonly Rule[], truthOf: (rule: Rule) => Truth): Vote[] {
  const cast: Vote[] = [];
  for (const rule of rules) {
    const truth = truthOf(rule);
    if (truth !== false) cast.push({ rule, truth });
  }
  return cast;
}

/** Whether a plan is one of those an effect speaks of. */
function meets(target: PlanTarget, { facts }: Option): Truth {
  if (target === 'this plan') return true;
  let truth: Truth = true;
  for (const { comparison, key, operand } of target) {
    truth = both(truth, judge(comparison, facts[key], operand));
    if (truth === false) return false;
  }
  return truth;
}
