import { z } from 'zod';
import type { Problem } from '../problems/problem.ts';
import { readDate } from '../quantities/date.ts';
import type { Source } from '../source/source.ts';
import { zodProblems } from '../source/zod-problems.ts';
import type { EarlierWording, Rule, RuleGroup, SubjectKind } from './model.ts';
import { placeholderFlaws } from './placeholders.ts';
import { type Path, type Reading, readCondition, report } from './read-condition.ts';
import { readEffects } from './read-effects.ts';
import type { Subjects } from './subjects.ts';

const date = z.string().refine((text) => readDate(text) !== undefined, { message: 'a date like 2026-03-05' });

/** The envelope of a rule; its condition and effects are read apart, because their errors want more than a schema can say. */
export const RULE_ENVELOPE = z.strictObject({
  rule: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower-case words joined by dashes'),
  title: z.string().min(1),
  when: z.unknown(),
  // biome-ignore lint/suspicious/noThenProperty: the word is the rule file's contract; envelopes are never awaited
  then: z.unknown(),
  because: z.string().min(1),
  evidence: z.enum(['published', 'common practice', 'studio experience', 'assumption']),
  source: z.string().min(1),
  since: date,
  until: date.optional(),
  'yields to': z.array(z.string()).optional(),
  was: z
    .array(z.strictObject({ until: date, reason: z.string(), changed: z.record(z.string(), z.unknown()) }))
    .optional(),
});

const ALLOWED: Readonly<Record<'stages' | 'units', readonly SubjectKind[]>> = {
  stages: ['finding', 'planned', 'plan'],
  units: ['finding', 'unit', 'family'],
};

/** Reads one file of rules: a list, each item a rule. All problems of the file are returned together. */
export function readRules(
  source: Source,
  group: RuleGroup,
  subjects: Subjects,
): { rules: Rule[]; problems: Problem[] } {
  const problems: Problem[] = [];
  if (!Array.isArray(source.value)) {
    problems.push({
      code: 'wrong-kind',
      severity: 'error',
      what: 'A file of rules is a list, each rule starting with "- rule: its-name"',
      place: source.place([], 'value'),
    });
    return { rules: [], problems };
  }
  const rules = source.value.map((raw, index) => readRule(source, raw, [index], group, subjects, problems));
  return { rules: rules.filter((rule) => rule !== undefined), problems };
}

function readRule(
  source: Source,
  raw: unknown,
  path: Path,
  group: RuleGroup,
  subjects: Subjects,
  problems: Problem[],
): Rule | undefined {
  const before = problems.length;
  const envelope = RULE_ENVELOPE.safeParse(raw);
  if (!envelope.success) problems.push(...zodProblems(envelope.error, source, { base: path }));
  const fields = (typeof raw === 'object' && raw !== null ? raw : {}) as Readonly<Record<string, unknown>>;
  const room = group === 'units' ? 'units' : 'stages';
  const reading: Reading = { source, subjects, allowed: ALLOWED[room], problems, tests: [] };
  const when = required(reading, fields, 'when', path)
    ? readCondition(reading, fields.when, [...path, 'when'])
    : undefined;
  const then = required(reading, fields, 'then', path)
    ? readEffects(reading, fields.then, [...path, 'then'], room)
    : {};
  if (!envelope.success || when === undefined || problems.length > before) return undefined;
  const { data } = envelope;
  const perPlan = reading.tests.some((test) => subjects.find(test.subject, test.id)?.perPlan === true);
  const rule: Rule = {
    id: data.rule,
    group,
    title: data.title,
    when,
    effects: then,
    because: data.because.trim(),
    evidence: data.evidence,
    source: data.source,
    since: data.since,
    until: data.until,
    yieldsTo: data['yields to'] ?? [],
    was: (data.was ?? []) as readonly EarlierWording[],
    perPlan,
    tests: reading.tests,
    place: source.place([...path, 'rule'], 'value'),
  };
  for (const flaw of placeholderFlaws(rule.because, subjects))
    report(reading, [...path, 'because'], 'value', 'bad-placeholder', flaw);
  if (
    !perPlan &&
    (then.ruleOut === 'this plan' || then.prefer === 'this plan' || then.avoid === 'this plan')
  ) {
    report(
      reading,
      [...path, 'then'],
      'key',
      'bad-effect',
      'The rule speaks of "this plan" but looks at no plan',
      {
        cure: 'Say which plans are meant, such as { plan: treatment, is: tie }, or add a condition on the plan.',
      },
    );
  }
  if (perPlan && (then.stand !== undefined || then.refuseUse !== undefined)) {
    report(
      reading,
      [...path, 'then'],
      'key',
      'bad-effect',
      'A rule that looks at a plan cannot set the standing of the whole quilt',
      {
        cure: 'Let it rule out the plan, or take the condition on the plan away.',
      },
    );
  }
  return problems.length > before ? undefined : rule;
}

function required(
  reading: Reading,
  fields: Readonly<Record<string, unknown>>,
  key: string,
  path: Path,
): boolean {
  if (fields[key] !== undefined && fields[key] !== null) return true;
  report(reading, [...path, key], 'key', 'missing-key', `The rule has no "${key}"`);
  return false;
}
