import type { QuiltCase } from '../../casebook/model.ts';
import { judge } from '../../rulebook/comparisons.ts';
import type { Test } from '../../rulebook/model.ts';
import type { DecisionContext } from '../context.ts';
import { verdictOf } from '../evaluate.ts';
import { takeReading } from '../reading.ts';
import type { Verdict } from '../verdict.ts';

/** Answers for variants of one case, each evaluated as any case is. */
export class Trials {
  readonly #context: DecisionContext;
  readonly #answers = new Map<QuiltCase, Verdict>();

  constructor(context: DecisionContext) {
    this.#context = context;
  }

  /** Standing and treatment of a variant. */
  answer(variant: QuiltCase): Verdict {
    const known = this.#answers.get(variant);
    if (known !== undefined) return known;
    const verdict = verdictOf(variant, this.#context);
    this.#answers.set(variant, verdict);
    return verdict;
  }

  /** How every test of the quilt comes out for a variant: variants alike in this differ in nothing a rule of the quilt reads. */
  sides(variant: QuiltCase): string {
    const { found, planned } = takeReading(variant, this.#context);
    const truth = ({ subject, key, comparison, operand }: Test) =>
      judge(comparison, subject === 'planned' ? planned[key] : found[key], operand);
    const tests = this.#context.knowledge.rulebook.rules
      .flatMap((rule) => rule.tests)
      .filter(({ subject }) => subject === 'finding' || subject === 'planned');
    return tests.map((test) => String(truth(test))).join();
  }
}
