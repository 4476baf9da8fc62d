import type { QuiltCase } from '../../casebook/model.ts';
import { traceRule } from '../../rulebook/evaluate.ts';
import type { Recommendation } from '../answer-model.ts';
import type { DecisionContext } from '../context.ts';
import { evaluate, recommendationOf } from '../evaluate.ts';
import { rulesThatCouldChange } from '../provisional.ts';
import { deriveFacts } from '../quilt-facts.ts';
import { undecidedTests } from '../reasons.ts';
import { variablesOf } from './ask.ts';
import { checkNext } from './counterfactuals.ts';
import { type Variable, VariantEvaluator } from './variable.ts';

/** Stands among the names where no fabric of the top has been told: the rules ask of cloth all the time. */
export const FABRICS = 'fabrics';

interface Found {
  readonly told: string;
  readonly askable: ReadonlySet<string>;
  readonly on: readonly string[];
}

/** What an interview should ask next. One of these serves a whole sitting: a question passed over costs nothing. */
export class QuestionRanker {
  readonly #context: DecisionContext;
  #last: Found | undefined;

  constructor(context: DecisionContext) {
    this.#context = context;
  }

  /** The answer if nothing more were asked. */
  verdict(quiltCase: QuiltCase): Recommendation {
    return recommendationOf(quiltCase, this.#context);
  }

  /**
   * Of what can still be asked (`askable`: names of findings, `A.fragility`, `joins.open`, `lost`, and FABRICS), what
   * bears on the answer, the most telling first; empty where nothing does. First what changes standing or treatment by
   * itself, as in check-next; where nothing does, what the rules wait for that could change them only together.
   */
  on(quiltCase: QuiltCase, askable: ReadonlySet<string>): readonly string[] {
    const told = JSON.stringify(quiltCase);
    const last = this.#last;
    // A question passed over leaves the case as it was.
    const same = last?.told === told && [...askable].every((name) => last.askable.has(name));
    const left = same ? last.on.filter((name) => askable.has(name)) : [];
    // Where all that tells by itself has been asked, there may be what tells only together.
    const on = left.length > 0 ? left : this.#work(quiltCase, askable);
    this.#last = { told, askable, on };
    return on;
  }

  #work(quiltCase: QuiltCase, askable: ReadonlySet<string>): readonly string[] {
    const { alone, variables } = variablesOf(quiltCase, this.#context);
    const open = variables.filter(({ id, current }) => current === undefined && askable.has(id));
    const telling = checkNext(alone, open, new VariantEvaluator(this.#context)).map(({ finding }) => finding);
    const unnamed = askable.has(FABRICS) && Object.keys(alone.survey.families ?? {}).length === 0;
    if (telling.length > 0) return unnamed ? [FABRICS, ...telling] : telling;
    const waited = this.#waitedFor(alone);
    if (waited.length === 0) return [];
    return [...(unnamed ? [FABRICS] : []), ...this.#moving(waited, alone, open)];
  }

  /** Facts that rules wait for which could still change standing or treatment. */
  #waitedFor(quiltCase: QuiltCase): readonly string[] {
    const { situation, ballot, outcome } = evaluate(quiltCase, this.#context);
    const open = rulesThatCouldChange(situation, ballot, outcome);
    const tests = open.flatMap((rule) => undecidedTests(traceRule(rule, situation.facts)));
    return [...new Set(tests.map(({ key }) => key))];
  }

  /** What is not known and moves one of these facts, the cheapest to find out first. */
  #moving(keys: readonly string[], quiltCase: QuiltCase, open: readonly Variable[]): string[] {
    const read = (variant: QuiltCase): string => {
      const { found, planned } = deriveFacts(variant, this.#context);
      return JSON.stringify(keys.map((key) => found[key] ?? planned[key]));
    };
    const now = read(quiltCase);
    return open
      .filter((variable) => variable.likely.some(({ value }) => read(variable.set(quiltCase, value)) !== now))
      .sort((a, b) => a.cost - b.cost)
      .map(({ id }) => id);
  }
}
