import type { Rule, SentenceEffect } from '../rulebook/model.ts';
import type { Caution, RuleText } from './answer-model.ts';
import type { Outcome, Settled } from './outcome.ts';
import { hazardStops } from './safety.ts';
import type { Situation } from './situation.ts';
import type { Words } from './wording.ts';

/** Whom each kind of caution is for. */
const CAUTIONS = {
  cautionFirst: 'both',
  caution: 'both',
  cautionHome: 'home',
  cautionWorkroom: 'workroom',
} as const;
type CautionEffect = keyof typeof CAUTIONS;
type TextEffect = CautionEffect | 'ask' | 'condition' | 'offer' | 'specialist';

/** Rules that speak before any work: what stops a quilt, and what belongs with somebody else. */
const isBeforeWork = ({ group }: Rule): boolean => group === 'stop' || group === 'refer';

const isCaution = (effect: TextEffect): effect is CautionEffect => effect in CAUTIONS;

/**
 * Sentences of every rule in force, in stage order: for the plan recommended or, where one was `chosen` instead, for
 * that; of the quilt alone where there is neither.
 */
export class Advice {
  readonly #situation: Situation;
  readonly #outcome: Outcome;
  readonly #inForce: readonly Rule[];
  readonly #words: Words;
  readonly #chosen: number | undefined;
  readonly #hazard: boolean;

  constructor(
    { situation, outcome, rules, active }: Pick<Settled, 'situation' | 'outcome' | 'rules' | 'active'>,
    words: Words,
    chosen?: number,
  ) {
    const plan = chosen ?? (outcome.treatment === null ? undefined : outcome.best);
    this.#situation = situation;
    this.#outcome = outcome;
    this.#words = words;
    this.#chosen = chosen;
    this.#hazard = hazardStops({ rules, active }).length > 0;
    this.#inForce = rules.filter((rule) =>
      rule.perPlan && plan === undefined ? false : active.of(rule, plan) === true,
    );
  }

  of(effect: TextEffect): RuleText[] {
    const said = this.#inForce
      .filter((rule) => rule.effects[effect] !== undefined && this.#belongs(rule, effect))
      .map((rule) => ({ rule: rule.id, text: this.#say(rule, effect) }));
    // Two rules may ask for the same thing; it is said once.
    return said.filter(({ text }, index) => said.findIndex((other) => other.text === text) === index);
  }

  /** What is said first, then cautions in the order of their rules, each with whom it is for. */
  cautions(): Caution[] {
    const effects = Object.keys(CAUTIONS) as CautionEffect[];
    const each = effects.flatMap((effect) =>
      this.of(effect).map(
        (said): Caution => ({ ...said, for: CAUTIONS[effect], first: effect === 'cautionFirst' }),
      ),
    );
    const order = (rule: string): number => this.#inForce.findIndex(({ id }) => id === rule);
    return each.sort((a, b) => Number(b.first) - Number(a.first) || order(a.rule) - order(b.rule));
  }

  /** Standings that a graver one outranks become conditions of the answer; a decline has none. */
  outranked(): RuleText[] {
    const [gravest] = this.#outcome.standingRules;
    if (gravest?.effects.stand === 'decline') return [];
    return this.#outcome.standingRules
      .filter((rule) => rule.effects.stand !== gravest?.effects.stand && rule.effects.condition === undefined)
      .map((rule) => ({ rule: rule.id, text: this.#words.sentence(rule.because, this.#facts()) }));
  }

  /** What is said keeps to what decides: an offer, a condition or a question about work has no place where there is none. */
  #belongs(rule: Rule, effect: TextEffect): boolean {
    const [gravest] = this.#outcome.standingRules;
    // While a hazard stands, only what stops or refers the quilt speaks: the rest is about work nobody may begin.
    if (this.#hazard && !isBeforeWork(rule)) return false;
    // Of a hazard its own stop says whom to ask.
    if (effect === 'specialist') return rule.effects.hazard === undefined;
    if (isCaution(effect) || this.#chosen !== undefined) return true;
    // Whatever else is offered would have somebody open it: photographs, a box, another use.
    if (effect === 'offer' && this.#hazard && rule.effects.hazard === undefined) return false;
    if (effect === 'offer' && (this.#hazard || (gravest !== undefined && isBeforeWork(gravest))))
      return rule.group === gravest?.group && rule.effects.stand === gravest.effects.stand;
    if (effect === 'condition' && gravest?.effects.stand === 'decline')
      return rule.effects.stand === 'decline' || rule.effects.refuseUse !== undefined;
    if (this.#outcome.treatment !== null) return true;
    if (effect === 'offer') return rule.effects.stand !== undefined || this.#isAllowed(rule);
    return rule.effects.stand !== undefined || isBeforeWork(rule);
  }

  /**
   * An offer counts where every rule against the quilt, or against its use, is of the stage of the rule that offers; one
   * that refers it stands against it beside a decline as well.
   */
  #isAllowed({ group }: Rule): boolean {
    const gravest = this.#outcome.standingRules[0]?.effects.stand;
    const against = this.#inForce.filter(
      ({ effects }) =>
        effects.refuseUse !== undefined ||
        effects.stand === 'refer' ||
        (gravest !== undefined && effects.stand === gravest),
    );
    return against.length > 0 && against.every((rule) => rule.group === group);
  }

  #say(rule: Rule, effect: SentenceEffect): string {
    return this.#words.sentence(rule.effects[effect] ?? '', this.#facts());
  }

  #facts() {
    const plan = this.#chosen ?? this.#outcome.best;
    return (plan === undefined ? undefined : this.#situation.options[plan]?.facts) ?? this.#situation.facts;
  }
}
