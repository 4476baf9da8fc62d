import { z } from 'zod';
import { EVIDENCE } from '../figures/model.ts';
import type { Problem } from '../problems/problem.ts';
import { readDate } from '../quantities/date.ts';
import { say } from '../source/quote.ts';
import type { Source } from '../source/source.ts';
import { zodProblems } from '../source/zod-messages.ts';
import {
  type EarlierWording,
  type Effects,
  type Rule,
  type RuleGroup,
  SENTENCE_EFFECTS,
  SENTENCES,
  type SubjectKind,
  type Test,
} from './model.ts';
import { meantBy, placeholderFlaws } from './placeholders.ts';
import { type Path, type Reading, readCondition, report } from './read-condition.ts';
import { readEffects } from './read-effects.ts';
import type { Subjects } from './subjects.ts';

const date = z.string().superRefine((text, context) => {
  if (readDate(text) === undefined)
    say(context, {
      code: 'bad-date',
      what: (name, value) => `${name}: ${value} is not a day of the calendar`,
    });
});

const ruleName = z.string().superRefine((text, context) => {
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(text)) {
    const what = `"${text}" cannot be the name of a rule: small letters and digits, words joined by dashes`;
    say(context, { code: 'bad-name', what, cure: 'Write it like weak-cloth-sewn-by-hand.' });
  }
});

/** The envelope of a rule; its condition and effects are read apart, because their errors want more than a schema can say. */
export const RULE_ENVELOPE = z.strictObject({
  rule: ruleName,
  title: z.string().min(1),
  when: z.unknown().optional(),
  // biome-ignore lint/suspicious/noThenProperty: the word is the rule file's contract; envelopes are never awaited
  then: z.unknown().optional(),
  because: z.string().min(1),
  evidence: z.enum(EVIDENCE),
  source: z.string().min(1),
  since: date,
  until: date.optional(),
  'yields to': z.array(z.string()).optional(),
  was: z
    .array(z.strictObject({ until: date, reason: z.string(), changed: z.record(z.string(), z.unknown()) }))
    .optional(),
});

export const ALLOWED: Readonly<Record<'stages' | 'units', readonly SubjectKind[]>> = {
  stages: ['finding', 'planned', 'plan'],
  units: ['finding', 'unit', 'family'],
};

interface RulesReading {
  readonly rules: readonly Rule[];
  /** Every name the file gives to a rule, whether or not the rule could be read. */
  readonly names: readonly string[];
  readonly problems: readonly Problem[];
}

/** Reads one file of rules: a list, each item a rule. All problems of the file are returned together. */
export function readRules(source: Source, group: RuleGroup, subjects: Subjects): RulesReading {
  const problems: Problem[] = [];
  if (!Array.isArray(source.value)) {
    problems.push({
      code: 'wrong-kind',
      severity: 'error',
      what: 'A file of rules is a list, each rule starting with "- rule: its-name"',
      place: source.place([], 'value'),
    });
    return { rules: [], names: [], problems };
  }
  const rules = source.value.map((raw, index): Rule | undefined => {
    const rule = readRule({ source, subjects, problems }, raw, [index], group);
    if (rule === undefined || rule.was.length === 0) return rule;
    return { ...rule, earlier: earlierRules({ source, subjects, problems: [] }, raw, index, rule) };
  });
  const names = source.value.flatMap((raw) =>
    isRecord(raw) && typeof raw.rule === 'string' ? [raw.rule] : [],
  );
  return { rules: rules.filter((rule) => rule !== undefined), names, problems };
}

/** Earlier wordings as rules, latest first. One that no longer reads, for want of its findings, is history and no fault. */
function earlierRules(file: RuleFile, raw: unknown, index: number, rule: Rule): Rule[] {
  return wordings(raw, rule.was).flatMap(({ raw: old, until }): Rule[] => {
    const read = readRule(file, old, [index], rule.group);
    return read === undefined ? [] : [{ ...read, until }];
  });
}

/** A file being read, and what is wrong with it so far. */
type RuleFile = Pick<Reading, 'source' | 'subjects' | 'problems'>;

function readRule(file: RuleFile, raw: unknown, path: Path, group: RuleGroup): Rule | undefined {
  const { source, subjects, problems } = file;
  const before = problems.length;
  const envelope = RULE_ENVELOPE.safeParse(raw);
  if (!envelope.success)
    problems.push(...zodProblems(envelope.error, source, { base: path, schema: RULE_ENVELOPE }));
  if (!isRecord(raw)) return undefined;
  const fields = raw;
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
    effects: withMeaning(then, reading.tests),
    because: meantBy(data.because.trim(), reading.tests),
    evidence: data.evidence,
    source: data.source,
    since: data.since,
    until: data.until,
    yieldsTo: data['yields to'] ?? [],
    yieldsAt: (data['yields to'] ?? []).map((_, index) => source.place([...path, 'yields to', index])),
    was: (data.was ?? []) as readonly EarlierWording[],
    perPlan,
    tests: reading.tests,
    place: source.place([...path, 'rule'], 'value'),
  };
  checkPlaceholders(reading, rule, path);
  if (
    !perPlan &&
    (then.ruleOut === 'this plan' || then.prefer === 'this plan' || then.avoid === 'this plan')
  ) {
    report(reading, [...path, 'then'], 'key', {
      code: 'bad-effect',
      what: 'The rule speaks of "this plan" but looks at no plan',
      cure: 'Say which plans are meant, such as { plan: treatment, is: tie }, or add a condition on the plan.',
    });
  }
  if (perPlan && (then.stand !== undefined || then.refuseUse !== undefined)) {
    report(reading, [...path, 'then'], 'key', {
      code: 'bad-effect',
      what: 'A rule that looks at a plan cannot set the standing of the whole quilt',
      cure: 'Let it rule out the plan, or take the condition on the plan away.',
    });
  }
  return problems.length > before ? undefined : rule;
}

const isRecord = (raw: unknown): raw is Readonly<Record<string, unknown>> =>
  typeof raw === 'object' && raw !== null && !Array.isArray(raw);

/** Placeholders in what a rule says mean what the rule looks at. */
function withMeaning(effects: Effects, tests: readonly Test[]): Effects {
  const said = SENTENCE_EFFECTS.flatMap((name) => {
    const text = effects[name];
    return text === undefined ? [] : [[name, meantBy(text, tests)] as const];
  });
  return { ...effects, ...Object.fromEntries(said) };
}

/** Every sentence of a rule may hold placeholders; one that names nothing would be shown to the client as it stands. */
function checkPlaceholders(reading: Reading, rule: Rule, path: Path): void {
  const check = (text: string, at: Path): void => {
    for (const flaw of placeholderFlaws(text, reading.subjects))
      report(reading, [...path, ...at], 'value', { code: 'bad-placeholder', what: flaw });
  };
  check(rule.because, ['because']);
  for (const name of SENTENCE_EFFECTS) check(rule.effects[name] ?? '', ['then', SENTENCES[name]]);
}

function required(
  reading: Reading,
  fields: Readonly<Record<string, unknown>>,
  key: string,
  path: Path,
): boolean {
  if (fields[key] !== undefined && fields[key] !== null) return true;
  report(reading, [...path, key], 'key', { code: 'missing-key', what: `The rule has no "${key}"` });
  return false;
}

/** A rule as it was written before a change. */
interface Wording {
  readonly raw: unknown;
  /** The day on which the next wording came into force. */
  readonly until: string;
}

/**
 * A rule's earlier wordings, latest first, worked out backwards from how it reads now: each entry of `was` says what
 * stood where, by paths such as `when.all.1.at most`; nothing stood where it says null.
 */
function wordings(raw: unknown, was: readonly EarlierWording[]): Wording[] {
  let now = raw;
  return [...was].reverse().map(({ until, changed }) => {
    now = Object.entries(changed).reduce((rule, [path, old]) => put(rule, path.split('.'), old), now);
    return { raw: now, until };
  });
}

/** A copy with one value put at a path; null takes what stands there away. */
function put(group: unknown, [name, ...rest]: readonly string[], value: unknown): unknown {
  if (name === undefined) return value;
  if (Array.isArray(group)) {
    return group.map((inner: unknown, index) => (String(index) === name ? put(inner, rest, value) : inner));
  }
  const entries = typeof group === 'object' && group !== null ? Object.entries(group) : [];
  const others = entries.filter(([key]) => key !== name);
  if (rest.length === 0 && value === null) return Object.fromEntries(others);
  const old: unknown = entries.find(([key]) => key === name)?.[1];
  // A key keeps its place.
  return entries.some(([key]) => key === name)
    ? Object.fromEntries(entries.map(([key, inner]) => [key, key === name ? put(inner, rest, value) : inner]))
    : Object.fromEntries([...others, [name, put(old, rest, value)]]);
}
