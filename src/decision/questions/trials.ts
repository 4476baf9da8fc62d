import type { QuiltCase } from '../../casebook/model.ts';
import type { Treatment } from '../../findings/scales.ts';
import { judge } from '../../rulebook/comparisons.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import type { Rule, Standing, Test } from '../../rulebook/model.ts';
import { castVotes } from '../ballot.ts';
import { Force } from '../force.ts';
import { type Laid, layPlans, situationOf } from '../prepare.ts';
import { type Reading, type StudioPractice, takeReading } from '../reading.ts';
import { settle } from '../settle.ts';
import { fastVerdicts, stageRules } from '../verdicts.ts';

/** What a question is about: the answer's standing and treatment. */
export interface Verdict {
  readonly standing: Standing;
  readonly treatment: Treatment | null;
}

export const sameVerdict = (a: Verdict, b: Verdict): boolean =>
  a.standing === b.standing && a.treatment === b.treatment;

/**
 * Decides many variants of one case, fast: with the evaluator that a property test holds equal to the engine,
 * sharing plans and estimates between variants that differ in nothing a plan is made from.
 */
export class Trials {
  readonly #knowledge: Knowledge;
  readonly #studio: StudioPractice;
  readonly #asOf: string;
  readonly #rules: readonly Rule[];
  /** Tests of the quilt alone, each once: what the thresholds cut. */
  readonly #tests: readonly Test[];
  readonly #laid = new Map<string, Laid>();
  readonly #answers = new Map<string, Verdict>();
  readonly #rough = new Map<string, Verdict>();

  constructor(knowledge: Knowledge, studio: StudioPractice, asOf: string) {
    this.#knowledge = knowledge;
    this.#studio = studio;
    this.#asOf = asOf;
    this.#rules = stageRules(knowledge.rulebook);
    const tests = this.#rules.flatMap((rule) => rule.tests).filter((test) => test.subject !== 'plan');
    this.#tests = [
      ...new Map(
        tests.map((test) => [JSON.stringify([test.key, test.comparison, test.operand]), test]),
      ).values(),
    ];
  }

  /** Standing and treatment of a variant. */
  answer(variant: QuiltCase): Verdict {
    const reading = takeReading(variant, this.#knowledge, this.#studio);
    const plansKey = this.#plansKey(reading);
    const { budget } = reading.latest.client;
    const key = `${this.#cell(reading)}|${budget}|${reading.found['finding.monetary_value']}|${plansKey}`;
    const known = this.#answers.get(key);
    if (known !== undefined) return known;
    const laid = this.#laid.get(plansKey) ?? layPlans(reading, this.#knowledge, this.#studio);
    this.#laid.set(plansKey, laid);
    const answer = this.#settle(reading, laid);
    this.#answers.set(key, answer);
    return answer;
  }

  /**
   * The same, sharing one evaluation between variants that cut no threshold, treat the same groups of units alike and
   * give plans the same gaps: they can differ in ranking alone, by counts. For searching; what is found is tried exactly.
   */
  roughAnswer(variant: QuiltCase): Verdict {
    const reading = takeReading(variant, this.#knowledge, this.#studio);
    const key = this.#roughKey(reading);
    const known = this.#rough.get(key);
    if (known !== undefined) return known;
    const answer = this.#settle(reading, layPlans(reading, this.#knowledge, this.#studio));
    this.#rough.set(key, answer);
    return answer;
  }

  /** Which side of every threshold a variant lies on: variants alike in this differ in nothing a quilt rule reads. */
  cell(variant: QuiltCase): string {
    return this.#cell(takeReading(variant, this.#knowledge, this.#studio));
  }

  #cell({ found, planned, asked }: Reading): string {
    const facts = { ...found, ...planned };
    const side = (truth: boolean | undefined): string => (truth === undefined ? '?' : truth ? '1' : '0');
    return `${this.#tests.map(({ key, comparison, operand }) => side(judge(comparison, facts[key], operand))).join('')}${String(asked['finding.intended_use'])}`;
  }

  /** Everything plans and their estimates are made from, money apart from the value of the quilt included. */
  #plansKey({ latest, quilt, actions, use, found }: Reading): string {
    const { piecework: _laidOut, ...counted } = quilt;
    const { size, layout, construction, batting, backing, binding, joining, weight, sewn } = latest.quilt;
    const { hung, wanted_years } = latest.client;
    return JSON.stringify([
      counted,
      [size, layout, construction, batting, backing, binding, joining, weight, sewn],
      latest.history,
      [hung, wanted_years, use],
      ['washing_planned', 'direct_light', 'age_years'].map((id) => found[`finding.${id}`]),
      actions.map(({ action }) => action),
    ]);
  }

  #roughKey(reading: Reading): string {
    const { latest, actions, use } = reading;
    const { size, layout, construction, batting, backing, joining, sewn } = latest.quilt;
    return JSON.stringify([
      this.#cell(reading),
      actions.map(({ group, action }) => [group.family, group.state, action]),
      [size, layout, construction, sewn, use, latest.client.wanted_years, latest.client.hung],
      [batting?.kind, batting?.rated_gap, backing?.kind, joining?.kind, joining?.gap],
    ]);
  }

  #settle(reading: Reading, laid: Laid): Verdict {
    const situation = situationOf(reading, laid, this.#knowledge, this.#asOf);
    const ballot = castVotes(situation, this.#rules, new Force(this.#rules, fastVerdicts(situation)));
    const { standing, treatment } = settle(situation, ballot);
    return { standing, treatment };
  }
}
