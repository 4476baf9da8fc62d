import type { Rule } from '../rulebook/model.ts';
import type { OpenFinding } from './answer-model.ts';
import type { Situation } from './situation.ts';
import { leftOpen } from './spoke.ts';
import { traceOf } from './verdicts.ts';
import type { Words } from './words.ts';

/** The findings that rules left open wait for, each once, with those rules. */
export function openFindings(situation: Situation, open: readonly Rule[], words: Words): OpenFinding[] {
  const found = new Map<string, { label: string; rules: Set<string> }>();
  for (const rule of open) {
    const options = rule.perPlan ? situation.options.map((_, option) => option) : [undefined];
    for (const test of options.flatMap((option) => leftOpen(traceOf(rule, situation, option)))) {
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
