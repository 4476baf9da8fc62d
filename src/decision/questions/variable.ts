import type { QuiltCase } from '../../casebook/model.ts';
import { judge } from '../../rulebook/comparisons.ts';
import type { Test } from '../../rulebook/model.ts';
import type { Recommendation } from '../answer-model.ts';
import type { DecisionContext } from '../context.ts';
import { recommendationOf } from '../evaluate.ts';
import { deriveFacts } from '../quilt-facts.ts';

/** A value as case files hold it: choices and grades by name, measures in the house's units. */
export type CaseValue = number | string | boolean;

/** Something about a case that could be otherwise: a finding, one fabric's grade, a count. */
export interface Variable {
  /** The finding's name, with the fabric's letter where it is of one: `A.fragility`. */
  readonly id: string;
  /** In a client's words: "how fragile the brown print is". */
  readonly label: string;
  /** Whether the client decides it, or a helper looks again. */
  readonly who: 'client' | 're-check';
  /** Whether the client can tell it without anybody touching the quilt. */
  readonly told: boolean;
  /** Undefined where it is not known. */
  readonly current: CaseValue | undefined;
  /** What finding out costs: 1 a question … 5 the quilt must be opened. */
  readonly cost: number;
  readonly how: string;
  /** Whether another value can be wished for or found on a second look; how the quilt was seen, or its price, cannot. */
  readonly turns: boolean;
  /** Values it could have, with how likely each is where nothing is known; weights add up to one. */
  readonly likely: readonly { readonly value: CaseValue; readonly weight: number }[];
  /** Other values that are within reach of the present one, nearest first. Empty for measures. */
  readonly others: readonly CaseValue[];
  /** Measures and counts: what lies within reach of the present value, and the least step a person would note. */
  readonly scale:
    | { readonly min: number; readonly max: number; readonly step: number; readonly marks: readonly number[] }
    | undefined;
  /** The largest count there can be. */
  readonly most: number;
  say(value: CaseValue): string;
  set(quiltCase: QuiltCase, value: CaseValue): QuiltCase;
}

/** Answers for variants of one case, each evaluated as any case is. */
export class VariantEvaluator {
  readonly #context: DecisionContext;
  readonly #answers = new Map<QuiltCase, Recommendation>();

  constructor(context: DecisionContext) {
    this.#context = context;
  }

  /** Standing and treatment of a variant. */
  answer(variant: QuiltCase): Recommendation {
    const known = this.#answers.get(variant);
    if (known !== undefined) return known;
    const verdict = recommendationOf(variant, this.#context);
    this.#answers.set(variant, verdict);
    return verdict;
  }

  /** How every test of the quilt comes out for a variant: variants alike in this differ in nothing a rule of the quilt reads. */
  sides(variant: QuiltCase): string {
    const { found, planned } = deriveFacts(variant, this.#context);
    const truth = ({ subject, key, comparison, operand }: Test) =>
      judge(comparison, subject === 'planned' ? planned[key] : found[key], operand);
    const tests = this.#context.knowledge.rulebook.rules
      .flatMap((rule) => rule.tests)
      .filter(({ subject }) => subject === 'finding' || subject === 'planned');
    return tests.map((test) => String(truth(test))).join();
  }
}
