import type { OpenFinding } from './answer-model.ts';
import type { Settled } from './settled.ts';
import { leftOpen } from './spoke.ts';
import type { Words } from './words.ts';

/** The findings that rules left open wait for, each once, with those rules. */
export function openFindings({ situation, verdicts, open }: Settled, words: Words): OpenFinding[] {
  const found = new Map<string, { label: string; rules: Set<string> }>();
  for (const rule of open) {
    const traces = rule.perPlan
      ? situation.options.map((_, option) => verdicts.trace(rule, option))
      : [verdicts.trace(rule, undefined)];
    for (const test of traces.flatMap((trace) => (trace === undefined ? [] : leftOpen(trace)))) {
      const entry = found.get(test.key) ?? { label: words.subject(test).label, rules: new Set<string>() };
      entry.rules.add(rule.id);
      found.set(test.key, entry);
    }
  }
  return [...found].map(([key, { label, rules }]) => ({
    finding: key.replace(/^finding\./, ''),
    label,
    rules: [...rules],
  }));
}
