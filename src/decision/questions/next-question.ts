import type { QuiltCase } from '../../casebook/model.ts';
import { traceRule } from '../../rulebook/evaluate.ts';
import type { Recommendation } from '../answer-model.ts';
import type { DecisionContext } from '../context.ts';
import { evaluate, recommendationOf } from '../evaluate.ts';
import { reachingTheWish } from '../outcome.ts';
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
    const rules =
      waited.length === 0 ? [] : [...(unnamed ? [FABRICS] : []), ...this.#moving(waited, alone, open)];
    return [...new Set([...rules, ...this.#movingTheYears(alone, open)])];
  }

  /**
   * Where a wish in years decides between plans, no rule waits for anything, yet washing and light together may carry a
   * forecast across the wish. What moves the years is asked where other plans reach the wish with all of it at its worst
   * than with all of it at its best; the cheapest to find out first.
   */
  #movingTheYears(quiltCase: QuiltCase, open: readonly Variable[]): string[] {
    if (quiltCase.client.wanted_years === undefined || this.verdict(quiltCase).treatment === null) return [];
    const moving = open.flatMap((variable) => {
      const values = variable.likely.map(({ value }) => ({
        value,
        years: this.#years(variable.set(quiltCase, value)),
      }));
      const [worst, ...rest] = values.sort((a, b) => a.years - b.years);
      const best = rest.at(-1);
      return worst && best && worst.years < best.years ? [{ variable, worst, best }] : [];
    });
    const reaching = (end: 'worst' | 'best'): string => {
      const all = moving.reduce((sofar, each) => each.variable.set(sofar, each[end].value), quiltCase);
      const { situation, outcome } = evaluate(all, this.#context);
      return reachingTheWish(situation, outcome.planOutcomes).join();
    };
    if (reaching('worst') === reaching('best')) return [];
    return moving.sort((a, b) => a.variable.cost - b.variable.cost).map(({ variable }) => variable.id);
  }

  /** Years until the next repair after the plan that comes first; none where no plan is left. */
  #years(quiltCase: QuiltCase): number {
    const { situation, outcome } = evaluate(quiltCase, this.#context);
    const best = outcome.best === undefined ? undefined : situation.options[outcome.best];
    return best?.estimator.life().middle ?? 0;
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
