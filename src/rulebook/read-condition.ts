import type { Problem } from '../problems/problem.ts';
import { quoted, textOf } from '../source/quote.ts';
import type { Source } from '../source/source.ts';
import { suggest } from '../source/suggest.ts';
import type { Operand } from './comparisons.ts';
import { COMPARISON_NAMES, type ComparisonName, comparison } from './comparisons.ts';
import type { Condition, SubjectKind, Test } from './model.ts';
import { readOperand } from './read-operand.ts';
import { isOrdered, SUBJECT_KINDS, type Subject, type Subjects } from './subjects.ts';

export type Path = readonly (string | number)[];

/** Collects problems and numbers the tests while one rule is read. */
export interface Reading {
  readonly source: Source;
  readonly subjects: Subjects;
  /** Which subjects may be spoken of here: rules about units know no plan, stages know no single unit. */
  readonly allowed: readonly SubjectKind[];
  readonly problems: Problem[];
  readonly tests: Test[];
}

const GROUPS = ['all', 'any', 'not'] as const;
type Raw = Readonly<Record<string, unknown>>;

const isRecord = (raw: unknown): raw is Raw => typeof raw === 'object' && raw !== null && !Array.isArray(raw);

export function report(
  reading: Reading,
  path: Path,
  which: 'key' | 'value',
  problem: Omit<Problem, 'severity' | 'place'>,
): void {
  reading.problems.push({ severity: 'error', place: reading.source.place(path, which), ...problem });
}

/** Reads a condition; undefined when something in it had to be reported. */
export function readCondition(reading: Reading, raw: unknown, path: Path): Condition | undefined {
  if (!isRecord(raw)) {
    report(reading, path, 'value', {
      code: 'wrong-kind',
      what: 'A condition is a group (all, any, not) or a test such as "finding: … is: …"',
    });
    return undefined;
  }
  const groups = GROUPS.filter((group) => group in raw);
  const [group] = groups;
  if (group === undefined) return readTest(reading, raw, path);
  if (groups.length > 1) {
    report(reading, [...path, groups[1] ?? group], 'key', {
      code: 'mixed-group',
      what: `"${groups.join('" and "')}" stand side by side`,
    });
    return undefined;
  }
  for (const key of Object.keys(raw).filter((key) => key !== group)) {
    report(reading, [...path, key], 'key', {
      code: 'mixed-group',
      what: `"${key}" stands beside "${group}" in one condition`,
      cure: `Move it into the list under "${group}".`,
    });
  }
  const inner = raw[group];
  const innerPath = [...path, group];
  if (group === 'not') {
    const condition = readCondition(reading, inner, innerPath);
    return condition && { not: condition };
  }
  return readGroup(reading, group, inner, innerPath);
}

function readGroup(
  reading: Reading,
  group: 'all' | 'any',
  inner: unknown,
  path: Path,
): Condition | undefined {
  if (!Array.isArray(inner)) {
    report(reading, path, 'value', {
      code: 'wrong-kind',
      what: `"${group}" holds a list of conditions, each on a line starting with a dash`,
    });
    return undefined;
  }
  if (inner.length === 0) {
    report(reading, path, 'key', { code: 'empty-group', what: `"${group}" holds no condition` });
    return undefined;
  }
  const parts = inner.map((part, index) => readCondition(reading, part, [...path, index]));
  const sound = parts.filter((part) => part !== undefined);
  if (sound.length < parts.length) return undefined;
  return group === 'all' ? { all: sound } : { any: sound };
}

/** Reads a leaf such as `finding: loss, at most: 5 %`. */
export function readTest(reading: Reading, raw: Raw, path: Path): Condition | undefined {
  const before = reading.problems.length;
  const known: readonly string[] = [...SUBJECT_KINDS, ...COMPARISON_NAMES];
  for (const key of Object.keys(raw).filter((key) => !known.includes(key))) {
    const near = suggest(key, [...known, ...GROUPS]);
    report(reading, [...path, key], 'key', {
      code: 'unknown-key',
      what: `"${key}" means nothing in a condition`,
      cure: `Name a subject (${SUBJECT_KINDS.join(', ')}) and one comparison (${COMPARISON_NAMES.join(', ')}).`,
      ...(near === undefined ? {} : { didYouMean: near }),
    });
  }
  // A misspelt name leaves a gap; one slip is reported once.
  if (reading.problems.length > before) return undefined;
  const kinds = SUBJECT_KINDS.filter((kind) => kind in raw);
  const names = COMPARISON_NAMES.filter((name) => name in raw);
  const [kind] = kinds;
  const [name] = names;
  if (kinds.length !== 1 || kind === undefined) {
    report(reading, path, 'value', {
      code: 'bad-comparison',
      what:
        kinds.length === 0
          ? 'The condition names nothing to look at'
          : 'The condition looks at two things at once',
      cure: `Name one of: ${reading.allowed.join(', ')}.`,
    });
    return undefined;
  }
  if (names.length !== 1 || name === undefined) {
    report(reading, path, 'value', {
      code: 'bad-comparison',
      what:
        names.length === 0
          ? 'The condition compares with nothing'
          : `"${names.join('" and "')}" stand in one condition`,
      cure: `Use one comparison: ${COMPARISON_NAMES.join(', ')}.`,
    });
    return undefined;
  }
  const subject = findSubject(reading, kind, raw[kind], [...path, kind]);
  if (subject === undefined) return undefined;
  const { chosen, operand } = readComparison(reading, subject, { name, raw: raw[name] }, [...path, name]);
  if (reading.problems.length > before) return undefined;
  const test: Test = {
    leaf: reading.tests.length,
    subject: kind,
    id: subject.id,
    key: `${kind}.${subject.id}`,
    comparison: chosen,
    operand,
    place: reading.source.place([...path, kind], 'value'),
  };
  reading.tests.push(test);
  return { test };
}

/** What a subject of each kind is called in a message. */
const KIND_WORDS: Readonly<Record<SubjectKind, string>> = {
  finding: 'finding',
  planned: 'finding as planned',
  plan: 'attribute of a plan',
  unit: 'finding of a unit',
  family: 'finding of a fabric',
};

function findSubject(reading: Reading, kind: SubjectKind, raw: unknown, path: Path): Subject | undefined {
  if (!reading.allowed.includes(kind)) {
    report(reading, path, 'key', {
      code: 'bad-comparison',
      what: `"${kind}" cannot be asked about here`,
      cure: `Here a condition can look at: ${reading.allowed.join(', ')}.`,
    });
    return undefined;
  }
  const subject = reading.subjects.find(kind, textOf(raw));
  if (subject !== undefined) return subject;
  const near = suggest(textOf(raw), reading.subjects.ids(kind));
  report(reading, path, 'value', {
    code: 'unknown-finding',
    what: `There is no ${KIND_WORDS[kind]} called ${quoted(raw)}`,
    ...(near === undefined ? {} : { didYouMean: near }),
  });
  return undefined;
}

function readComparison(
  reading: Reading,
  subject: Subject,
  { name, raw }: { readonly name: ComparisonName; readonly raw: unknown },
  path: Path,
): { chosen: ComparisonName; operand: Operand } {
  // "is: unknown" reads naturally; it means "is unknown" unless unknown is one of the finding's own choices.
  if (
    name === 'is' &&
    (raw === 'unknown' || raw === 'known') &&
    !subject.options.some((option) => option.value === raw)
  ) {
    return { chosen: raw === 'unknown' ? 'is unknown' : 'is known', operand: undefined };
  }
  const way = comparison(name);
  if (way.ordered && !isOrdered(subject)) {
    report(reading, path, 'key', {
      code: 'bad-comparison',
      what: `"${name}" needs values that stand in an order, and those of "${subject.id}" do not`,
      cure: 'Use is, is not or one of.',
    });
    return { chosen: name, operand: undefined };
  }
  if (way.operand === 'none') {
    if (![true, 'yes', null].includes(raw as never)) {
      report(reading, path, 'value', {
        code: 'bad-comparison',
        what: `"${name}" takes no value`,
        cure: `Write "${name}: yes".`,
      });
    }
    return { chosen: name, operand: undefined };
  }
  if (way.operand === 'one') return { chosen: name, operand: readOne(reading, subject, raw, path) };
  const wanted = way.operand === 'pair' ? 2 : undefined;
  if (!Array.isArray(raw) || raw.length === 0 || (wanted !== undefined && raw.length !== wanted)) {
    report(reading, path, 'value', {
      code: 'bad-comparison',
      what: wanted === 2 ? '"between" takes two values' : `"${name}" takes a list of values`,
      cure: wanted === 2 ? 'Write it like [5 %, 15 %].' : 'Write it like [this, that].',
    });
    return { chosen: name, operand: undefined };
  }
  const values = raw.map((value, index) => readOne(reading, subject, value, [...path, index]));
  if (
    wanted === 2 &&
    typeof values[0] === 'number' &&
    typeof values[1] === 'number' &&
    values[0] > values[1]
  ) {
    report(reading, path, 'value', {
      code: 'bad-comparison',
      what: 'The two values of "between" stand the wrong way round',
      cure: 'Put the smaller one first.',
    });
  }
  return {
    chosen: name,
    operand: values.filter((value) => typeof value === 'number' || typeof value === 'string'),
  };
}

function readOne(
  reading: Reading,
  subject: Subject,
  raw: unknown,
  path: Path,
): number | string | boolean | undefined {
  const result = readOperand(subject, raw);
  if ('value' in result) return result.value;
  const { flaw } = result;
  report(reading, path, 'value', flaw);
  return undefined;
}
