import type { QuiltCase } from '../../casebook/model.ts';
import type { Treatment } from '../../casebook/scales.ts';
import type { Work } from '../../estimates/plan-estimates.ts';
import type { Fact, Facts } from '../../findings/fact.ts';
import { candidateGaps } from '../../plans/candidates.ts';
import { once, remembered } from '../../quantities/once.ts';
import { type LeafReader, verdict } from '../../rulebook/kleene.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import type { Rule, Test } from '../../rulebook/model.ts';
import { weighsPlans } from '../../rulebook/weighs-plans.ts';
import { Force } from '../force.ts';
import { type Laid, layPlans, situationOf, valueOverPrice } from '../prepare.ts';
import { Reader, type Reading, type StudioPractice } from '../reading.ts';
import { byGravity, conclude } from '../settle.ts';
import { settleFast } from '../settle-fast.ts';
import type { Verdict } from '../verdict.ts';
import { stageRules } from '../verdicts.ts';
import {
  clothKey,
  exactKey,
  gapSides,
  gapsKey,
  leavesOf,
  sides,
  testsOf,
  withThoseYieldedTo,
  workKey,
} from './alike.ts';

/** The best plan the rules leave for one reading. */
interface Weighed {
  readonly preferred: Treatment | undefined;
  /** The value of the quilt over the least price, for whatever value a reading has. */
  valueOverPrice(facts: Facts): Fact;
}

/**
 * Decides many variants of one case, fast: with the evaluator that a property test holds equal to the engine. Weighing
 * plans is dear and standings are cheap, so the two are apart: variants on the same side of every threshold that a
 * rule about plans has, and alike in what plans are made from, share the weighing.
 */
export class Trials {
  readonly #knowledge: Knowledge;
  readonly #studio: StudioPractice;
  readonly #asOf: string;
  readonly #rules: readonly Rule[];
  readonly #standing: readonly Rule[];
  /** Tests of the quilt in any rule, and in those that weigh plans; tests of plans; each once. */
  readonly #allTests: readonly Test[];
  readonly #weighingTests: readonly Test[];
  readonly #planTests: readonly Test[];
  readonly #reader: Reader;
  readonly #exact = new Map<string, Weighed>();
  readonly #rough = new Map<string, Weighed>();
  /** The work of plans, by what it is reckoned from roughly and by the plan; and on which sides their gaps lie. */
  readonly #work = new Map<string, ReadonlyMap<string, Work>>();
  readonly #gaps = new Map<string, string>();

  constructor(knowledge: Knowledge, studio: StudioPractice, asOf: string) {
    this.#knowledge = knowledge;
    this.#studio = studio;
    this.#asOf = asOf;
    this.#reader = new Reader(knowledge, studio);
    this.#rules = stageRules(knowledge.rulebook);
    this.#standing = this.#rules.filter((rule) => rule.effects.stand !== undefined);
    this.#allTests = testsOf(this.#rules, 'quilt');
    const weighing = withThoseYieldedTo(this.#rules.filter(weighsPlans), this.#rules);
    this.#weighingTests = testsOf(weighing, 'quilt');
    this.#planTests = testsOf(this.#rules, 'plan');
  }

  /** Standing and treatment of a variant. */
  answer(variant: QuiltCase): Verdict {
    const reading = this.#reader.read(variant);
    const plans = () => exactKey(reading);
    return this.#conclude(reading, this.#exact, plans, () =>
      this.#weigh(reading, layPlans(reading, this.#knowledge, this.#studio)),
    );
  }

  /**
   * The same, sharing the weighing also between variants that treat the same groups of units alike and whose plans
   * have gaps on the same sides of every test: they can differ in ranking alone, by counts. For searching; what is
   * found is tried exactly.
   */
  roughAnswer(variant: QuiltCase): Verdict {
    const reading = this.#reader.read(variant);
    const work = once(() => workKey(reading));
    const plans = () => `${work()}${clothKey(reading)}${this.#gapSides(reading, work())}`;
    return this.#conclude(reading, this.#rough, plans, () =>
      this.#weigh(reading, this.#layRoughly(reading, work())),
    );
  }

  /** Which side of every threshold a variant lies on: variants alike in this differ in nothing a quilt rule reads. */
  cell(variant: QuiltCase): string {
    const reading = this.#reader.read(variant);
    return `${sides(leavesOf(reading), this.#allTests)}${String(reading.asked['finding.intended_use'])}`;
  }

  #layRoughly(reading: Reading, key: string): Laid {
    const laid = layPlans(reading, this.#knowledge, this.#studio, this.#work.get(key));
    remembered(this.#work, key, () => workOf(laid));
    return laid;
  }

  #gapSides(reading: Reading, work: string): string {
    const { quilt, latest } = reading;
    const key = `${work}${gapsKey(reading)}`;
    return remembered(this.#gaps, key, () =>
      gapSides(candidateGaps(quilt, latest.quilt, this.#knowledge.figures), this.#planTests),
    );
  }

  #conclude(
    reading: Reading,
    memory: Map<string, Weighed>,
    plansKey: () => string,
    weigh: () => Weighed,
  ): Verdict {
    // A decline that holds whatever the price is one whichever plan is best.
    const priceless = this.#standingRules(leavesOf(reading));
    if (priceless[0]?.effects.stand === 'decline') return { standing: 'decline', treatment: null };
    const key = `${sides(leavesOf(reading), this.#weighingTests)}|${plansKey()}`;
    const weighed = remembered(memory, key, weigh);
    const worth = weighed.valueOverPrice(reading.found);
    const standing = worth === undefined ? priceless : this.#standingRules(leavesOf(reading, worth));
    const { standing: stands, treatment } = conclude(standing, weighed.preferred);
    return { standing: stands, treatment };
  }

  /** Rules that set a standing, gravest first. */
  #standingRules(leaves: LeafReader): Rule[] {
    const judged = (rule: Rule) => verdict(rule.when, leaves);
    const force = new Force(this.#rules, { quilt: judged, plan: judged, anyPlan: judged });
    return this.#standing.filter((rule) => force.of(rule, undefined) === true).sort(byGravity);
  }

  #weigh(reading: Reading, laid: Laid): Weighed {
    const situation = situationOf(reading, laid, this.#knowledge, this.#asOf);
    const { preferred } = settleFast(situation, this.#rules).outcome;
    return {
      preferred,
      valueOverPrice: (facts) => valueOverPrice(laid.plans, laid.estimates, facts),
    };
  }
}

const workOf = ({ plans, estimates }: Laid): ReadonlyMap<string, Work> =>
  new Map(plans.flatMap(({ id }, index) => (estimates[index] === undefined ? [] : [[id, estimates[index]]])));
