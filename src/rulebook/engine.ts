import { Engine, type NestedCondition, type RuleResult, type TopLevelCondition } from 'json-rules-engine';
import { type Fact, type Facts, isSpan } from '../findings/fact.ts';
import { COMPARISON_NAMES, type ComparisonName, certainly, judge, type Operand } from './comparisons.ts';
import { type LeafReader, type Trace, trace } from './evaluate.ts';
import type { Condition, Rule } from './model.ts';

/**
 * The decision of record runs on json-rules-engine. Rules are handed over with flat facts, our own typed
 * operators, no paths and no priorities; `allowUndefinedFacts` lets one run go through with gaps in what is
 * known. The engine's booleans mean "certainly"; what it could not settle is told apart from its result tree
 * (a leaf with no fact, or with a fact known only within bounds), and Kleene logic over that tree gives the
 * verdict and the trace.
 */
export class RulesRun {
  readonly #compiled: readonly { readonly rule: Rule; readonly conditions: TopLevelCondition }[];

  /** Facts that any of the rules reads: no others are handed over, or worked out. */
  readonly #keys: readonly string[];

  constructor(rules: readonly Rule[]) {
    this.#keys = [...new Set(rules.flatMap((rule) => rule.tests.map((test) => test.key)))];
    this.#compiled = rules.map((rule) => ({ rule, conditions: { all: [compileForEngine(rule.when)] } }));
  }

  /** Traces every rule on one set of facts. A fresh engine a run: shared ones lose rules when runs overlap. */
  async run(facts: Facts): Promise<Map<string, Trace>> {
    const engine = new Engine([], { allowUndefinedFacts: true });
    for (const name of COMPARISON_NAMES) {
      engine.addOperator(name, (fact: Fact, operand: Operand) => certainly(name, fact, operand));
    }
    for (const { rule, conditions } of this.#compiled)
      engine.addRule({ conditions, event: { type: rule.id }, name: rule.id });
    const known: Record<string, NonNullable<Fact>> = {};
    for (const key of this.#keys) {
      const fact = facts[key];
      if (fact !== undefined) known[key] = fact;
    }
    const { results, failureResults } = await engine.run(known);
    const byRule = new Map([...results, ...failureResults].map((result) => [result.name, result]));
    return new Map(
      this.#compiled.map(({ rule }) => {
        const result = byRule.get(rule.id);
        if (result === undefined) throw new Error(`the engine lost the rule ${rule.id}`);
        return [rule.id, trace(rule.when, resultReader(result))];
      }),
    );
  }
}

/** Conditions in the engine's form, leaf for leaf in the same order. */
export function compileForEngine(condition: Condition): NestedCondition {
  if ('all' in condition) return { all: condition.all.map(compileForEngine) };
  if ('any' in condition) return { any: condition.any.map(compileForEngine) };
  if ('not' in condition) return { not: compileForEngine(condition.not) };
  const { key, comparison, operand } = condition.test;
  return { fact: key, operator: comparison, value: operand === undefined ? null : operand };
}

/** What the engine says of one leaf. */
interface LeafResult {
  readonly operator: ComparisonName;
  readonly factResult?: Fact;
  readonly result?: boolean;
}

/** Reads leaves from a result tree: its leaves stand in the same order as the rule's tests. */
function resultReader(result: RuleResult): LeafReader {
  const leaves: LeafResult[] = [];
  collect(result.conditions as unknown, leaves);
  return (test) => {
    const leaf = leaves[test.leaf];
    if (leaf?.result === undefined) throw new Error(`the engine left out a test of ${result.name}`);
    if (leaf.result) return true;
    if (leaf.factResult === undefined) return test.comparison === 'is known' ? false : undefined;
    // Not certainly true; a fact known within bounds may still make it true.
    return isSpan(leaf.factResult) ? judge(test.comparison, leaf.factResult, test.operand) : false;
  };
}

function collect(node: unknown, leaves: LeafResult[]): void {
  if (typeof node !== 'object' || node === null) return;
  if ('all' in node && Array.isArray(node.all)) for (const part of node.all) collect(part, leaves);
  else if ('any' in node && Array.isArray(node.any)) for (const part of node.any) collect(part, leaves);
  else if ('not' in node) collect(node.not, leaves);
  else leaves.push(node as LeafResult);
}
