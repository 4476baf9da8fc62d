import { z } from 'zod';
import { ACTIONS, HAZARDS, USES } from '../casebook/scales.ts';
import { COMPARISON_NAMES, comparison } from './comparisons.ts';
import { SENTENCES, type SubjectKind } from './model.ts';
import { ALLOWED, RULE_ENVELOPE } from './read-rules.ts';
import { isOrdered, type Subject, type Subjects } from './subjects.ts';

/**
 * A file of rules as an editor should know it: every subject there is, with its label, and what it compares with. The
 * loader says more and better; this is for completing and underlining while typing.
 */
export function rulesSchema(subjects: Subjects, room: 'stages' | 'units'): z.ZodType {
  const tests = ALLOWED[room].flatMap((kind) => testsOn(kind, subjects));
  const condition: z.ZodType = z.lazy(() =>
    z.union([
      z.strictObject({ all: z.array(condition).min(1) }),
      z.strictObject({ any: z.array(condition).min(1) }),
      z.strictObject({ not: condition }),
      z.union(tests),
    ]),
  );
  const onPlans = z.union(testsOn('plan', subjects));
  const target = z.union([z.literal('this plan'), onPlans, z.array(onPlans).min(1)]);
  const sentence = z.string().min(1);
  const effects =
    room === 'units'
      ? z.strictObject({ action: z.enum(ACTIONS) })
      : z.strictObject({
          stand: z.enum(['not yet', 'refer', 'decline']).optional(),
          'no treatment yet': z.literal('yes').optional(),
          'refuse use': z.enum(USES).optional(),
          'rule out': target.optional(),
          'call for': z.union([onPlans, z.array(onPlans).min(1)]).optional(),
          prefer: target.optional(),
          avoid: target.optional(),
          hazard: z.enum(HAZARDS).optional(),
          ...Object.fromEntries(Object.values(SENTENCES).map((name) => [name, sentence.optional()])),
        });
  // biome-ignore lint/suspicious/noThenProperty: the word is the rule file's contract
  return z.array(RULE_ENVELOPE.extend({ when: condition, then: effects }));
}

/** Subjects of one kind that compare with the same values share one schema, so that the file stays readable. */
function testsOn(kind: SubjectKind, subjects: Subjects): z.ZodType[] {
  const alike = new Map<string, Subject[]>();
  for (const id of subjects.ids(kind)) {
    const subject = subjects.find(kind, id);
    if (subject === undefined) continue;
    const name = [subject.value, ...subject.options.map(({ value }) => value)].join();
    alike.set(name, [...(alike.get(name) ?? []), subject]);
  }
  return [...alike.values()].map((group) => {
    const [first] = group;
    if (first === undefined) return z.never();
    const value = operandKind(first);
    const suited = COMPARISON_NAMES.filter((name) => isOrdered(first) || !comparison(name).ordered);
    const comparisons = Object.fromEntries(
      suited.map((name) => [name, operandOf(comparison(name).operand, value).optional()]),
    );
    const names = z.union(
      group.map(({ id, label }) => z.literal(id).meta({ description: label })) as unknown as [z.ZodType],
    );
    return z.strictObject({ [kind]: names, ...comparisons });
  });
}

const operandKind = (subject: Subject): z.ZodType => {
  if (subject.value === 'yes/no') return z.union([z.boolean(), z.enum(['yes', 'no'])]);
  const [first, ...rest] = subject.options.map(({ value }) => value) ?? [];
  return first === undefined ? z.union([z.string(), z.number()]) : z.enum([first, ...rest]);
};

const operandOf = (operand: 'one' | 'many' | 'pair' | 'none', value: z.ZodType): z.ZodType => {
  if (operand === 'none') return z.union([z.literal('yes'), z.literal(true)]);
  if (operand === 'one') return z.union([value, z.enum(['known', 'unknown'])]);
  return operand === 'pair' ? z.array(value).length(2) : z.array(value).min(1);
};
