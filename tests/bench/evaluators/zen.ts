import type { Operand } from '../../../src/rulebook/comparisons.ts';
import type { Condition, Rule, Test } from '../../../src/rulebook/model.ts';
import type { Way } from '../evaluators.ts';
import type { Values } from './situations.ts';

/** Names and literals as the expression language of zen-engine takes them. */
const nameOf = (key: string): string => key.replaceAll('.', '__');
const literal = (value: Operand): string => JSON.stringify(value);
const EXPRESSIONS: Readonly<Record<string, (name: string, value: Operand) => string>> = {
  is: (name, value) => `${name} == ${literal(value)}`,
  'is not': (name, value) => `${name} != ${literal(value)}`,
  'one of': (name, value) => `${name} in ${literal(value)}`,
  'at least': (name, value) => `${name} >= ${literal(value)}`,
  'more than': (name, value) => `${name} > ${literal(value)}`,
  'at most': (name, value) => `${name} <= ${literal(value)}`,
  'less than': (name, value) => `${name} < ${literal(value)}`,
  between: (name, value) =>
    `${name} >= ${literal([value].flat()[0])} and ${name} <= ${literal([value].flat()[1])}`,
  'is known': (name) => `${name} != null`,
  'is unknown': (name) => `${name} == null`,
};

const leaf = ({ comparison, key, operand }: Test): string => {
  const say = EXPRESSIONS[comparison];
  if (say === undefined) throw new Error(`"${comparison}" has no expression in zen-engine yet`);
  return say(nameOf(key), operand);
};
const translate = (condition: Condition): string => {
  if ('test' in condition) return `(${leaf(condition.test)})`;
  if ('not' in condition) return `(not ${translate(condition.not)})`;
  return 'all' in condition
    ? `(${condition.all.map(translate).join(' and ')})`
    : `(${condition.any.map(translate).join(' or ')})`;
};

const node = (id: string, type: string, content: object): object => ({
  id,
  name: id,
  type,
  content,
  position: { x: 0, y: 0 },
});
const edge = (sourceId: string, targetId: string): object => ({
  id: `${sourceId}-${targetId}`,
  sourceId,
  targetId,
  type: 'edge',
});
const graph = (type: string, content: object): object => ({
  nodes: [node('in', 'inputNode', {}), node('rules', type, content), node('out', 'outputNode', {})],
  edges: [edge('in', 'rules'), edge('rules', 'out')],
});

/**
 * The rules in zen-engine's forms, compiled beforehand by its ZenDecisionContent: an expression a rule, one expression
 * that lists all rules (its quickest), and a decision table whose rows are collected. Where the package was not
 * installed, as on a platform it is not built for, the comparison is left out and says so.
 */
export async function zenWays(rules: readonly Rule[]): Promise<Way[]> {
  const zen = await import('@gorules/zen-engine').catch((error: unknown) => {
    console.log(`zen-engine is LEFT OUT, because it does not load here: ${String(error)}`);
    return undefined;
  });
  if (zen === undefined) return [];
  const engine = new zen.ZenEngine();
  const each = rules.map((rule, index) => ({
    id: `${index}`,
    key: `r${index}`,
    value: translate(rule.when),
  }));
  const list = { id: 'all', key: 'all', value: `[${each.map(({ value }) => value).join(', ')}]` };
  const table = {
    hitPolicy: 'collect',
    inputs: [{ id: 'when', name: 'when' }],
    outputs: [{ id: 'rule', name: 'rule', field: 'rule' }],
    rules: each.map(({ id, value }) => ({ _id: id, when: value, rule: `"${id}"` })),
  };
  const contexts = new WeakMap<Values, object>();
  const contextOf = (facts: Values): object => {
    const known = contexts.get(facts);
    if (known !== undefined) return known;
    const made = Object.fromEntries(Object.entries(facts).map(([key, value]) => [nameOf(key), value]));
    contexts.set(facts, made);
    return made;
  };
  // biome-ignore lint/suspicious/noExplicitAny: the engine's own type of a result
  const way = (name: string, content: object, read: (result: any) => boolean[], trace = false): Way => {
    const decision = engine.createDecision(new zen.ZenDecisionContent(content));
    return {
      name: `zen-engine, ${name}`,
      of: 'zen-engine',
      judge: async (facts) => read((await decision.evaluate(contextOf(facts), { trace })).result),
    };
  };
  const readEach = (result: Record<string, boolean>): boolean[] =>
    each.map(({ key }) => result[key] ?? false);
  return [
    way('an expression a rule', graph('expressionNode', { expressions: each }), readEach),
    way('the same with its trace', graph('expressionNode', { expressions: each }), readEach, true),
    way('one expression that lists all', graph('expressionNode', { expressions: [list] }), ({ all }) => all),
    way('a decision table', graph('decisionTableNode', table), (rows: readonly { rule: string }[]) => {
      const held = new Set(rows.map(({ rule }) => rule));
      return each.map(({ id }) => held.has(id));
    }),
  ];
}
