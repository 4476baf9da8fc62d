import type { Rule } from '../../../src/rulebook/model.ts';
import { seeded } from '../../reliability/seeded.ts';

/** Findings all known, each with a single value. */
export type Values = Readonly<Record<string, number | string | boolean>>;

/** Random findings, each drawn from values on both sides of everything the rules compare it with. */
export function situationsFor(rules: readonly Rule[], count: number): readonly Values[] {
  const random = seeded(1);
  const choices = new Map<string, (number | string | boolean)[]>();
  for (const { key, operand } of rules.flatMap((rule) => rule.tests)) {
    const near = [operand].flat().flatMap((value): (number | string | boolean)[] => {
      if (typeof value === 'number') return [value - 1, value, value + 1];
      if (typeof value === 'boolean') return [true, false];
      return value === undefined ? [] : [value, 'something else'];
    });
    choices.set(key, [...(choices.get(key) ?? []), ...near]);
  }
  const pick = <T>(list: readonly T[]): T | undefined => list[Math.floor(random() * list.length)];
  return Array.from({ length: count }, () =>
    Object.fromEntries([...choices].map(([key, values]) => [key, pick(values) ?? 1])),
  );
}
