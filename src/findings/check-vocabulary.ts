import { z } from 'zod';
import { GRADES } from '../casebook/scales.ts';
import { EVIDENCE } from '../figures/model.ts';
import type { Problem } from '../problems/problem.ts';
import type { Path, Source } from '../source/source.ts';
import { suggest } from '../source/suggest.ts';
import { KINDS, KNOWERS } from './vocabulary.ts';

/** Chances are written to two or three decimals, so their sum may miss one by a little. */
const ROUNDING = 0.005;

interface VocabularyProblem extends Pick<Problem, 'code' | 'what'> {
  readonly cure?: string;
  readonly didYouMean?: string | undefined;
}

type Report = (said: VocabularyProblem, path: Path, which?: 'key' | 'value') => void;

/** Slips the shape cannot show: names that lead nowhere, choices without chances, chances that do not add up. */
export const vocabularyProblems = (file: VocabularyFile, source: Source): Problem[] => {
  const problems: Problem[] = [];
  const report: Report = ({ code, what, cure, didYouMean }, path, which = 'value') => {
    problems.push({
      code,
      severity: 'error',
      what,
      place: source.place(path, which),
      ...(cure === undefined ? {} : { cure }),
      ...(didYouMean === undefined ? {} : { didYouMean }),
    });
  };
  checkGrades(file, report);
  for (const level of ['findings', 'family', 'unit'] as const) {
    for (const [id, entry] of Object.entries(file[level])) {
      const path = [level, id];
      checkGroup(file, entry, path, report);
      checkOptions(id, entry, path, report);
      checkRange(id, entry, path, report);
      checkLikely(id, entry, path, report);
      checkAsked(id, entry, path, report);
      checkNeedless(file, entry, path, report);
    }
  }
  return problems;
};

const checkGrades = (file: VocabularyFile, report: Report): void => {
  for (const grade of GRADES) {
    if (!(grade in file.grades))
      report({ code: 'missing-key', what: `the scale lacks the grade ${grade}` }, ['grades'], 'key');
  }
  const names: readonly string[] = GRADES;
  for (const name of Object.keys(file.grades)) {
    if (names.includes(name)) continue;
    const didYouMean = suggest(name, names);
    report({ code: 'unknown-key', what: `${name} is not a grade`, didYouMean }, ['grades', name], 'key');
  }
};

const checkGroup = (file: VocabularyFile, entry: FindingEntry, path: Path, report: Report): void => {
  if (entry.group in file.groups) return;
  const names = Object.keys(file.groups);
  const cure = `Use one of: ${names.join(', ')}.`;
  report(
    {
      code: 'not-an-option',
      what: `there is no group ${entry.group}`,
      cure,
      didYouMean: suggest(entry.group, names),
    },
    [...path, 'group'],
    'value',
  );
};

const checkOptions = (id: string, entry: FindingEntry, path: Path, report: Report): void => {
  const count = Object.keys(entry.options ?? {}).length;
  if (entry.kind === 'choice' && count < 2) {
    report({ code: 'missing-key', what: `${id} is a choice but lists fewer than two options` }, path, 'key');
  }
  if (entry.kind !== 'choice' && (count > 0 || entry.ordered === true)) {
    const key = count > 0 ? 'options' : 'ordered';
    report(
      { code: 'unknown-key', what: `${key} goes with a choice, and ${id} is ${entry.kind}` },
      [...path, key],
      'key',
    );
  }
};

const FIGURES: ReadonlySet<string> = new Set([
  'count',
  'number',
  'length',
  'area',
  'weight',
  'money',
  'years',
]);

const checkRange = (id: string, entry: FindingEntry, path: Path, report: Report): void => {
  const { range, kind } = entry;
  if (range === undefined) {
    if (FIGURES.has(kind))
      report({ code: 'missing-key', what: `${id} is a figure but has no range` }, path, 'key');
  } else if (!FIGURES.has(kind) && kind !== 'fraction') {
    report(
      { code: 'unknown-key', what: `range goes with a figure, and ${id} is ${kind}` },
      [...path, 'range'],
      'key',
    );
  } else if (range.min >= range.max) {
    report({ code: 'out-of-range', what: `the range of ${id} is empty: ${range.min} to ${range.max}` }, [
      ...path,
      'range',
    ]);
  }
};

const checkLikely = (id: string, entry: FindingEntry, path: Path, report: Report): void => {
  const { likely, kind } = entry;
  const at = [...path, 'likely'];
  if (likely === undefined) return;
  if (typeof likely === 'number') {
    if (kind !== 'yes/no')
      report({ code: 'wrong-kind', what: `one chance goes with yes/no, and ${id} is ${kind}` }, at);
    return;
  }
  if (Array.isArray(likely)) {
    const figure = FIGURES.has(kind) || kind === 'fraction';
    if (!figure)
      report({ code: 'wrong-kind', what: `a list of values goes with a figure, and ${id} is ${kind}` }, at);
    const { min, max } = entry.range ?? { min: 0, max: 1 };
    likely.forEach((value, index) => {
      if (figure && (value < min || value > max)) {
        report({ code: 'out-of-range', what: `${value} is outside ${min} to ${max}` }, [...at, index]);
      }
    });
    return;
  }
  const options: readonly string[] = kind === 'grade' ? GRADES : Object.keys(entry.options ?? {});
  if (kind !== 'grade' && kind !== 'choice') {
    report({ code: 'wrong-kind', what: `chances by name go with a choice, and ${id} is ${kind}` }, at);
    return;
  }
  for (const name of Object.keys(likely)) {
    if (options.includes(name)) continue;
    const didYouMean = suggest(name, options);
    report(
      { code: 'not-an-option', what: `${name} is not an option of ${id}`, didYouMean },
      [...at, name],
      'key',
    );
  }
  const sum = Object.values(likely).reduce((total, chance) => total + chance, 0);
  if (Math.abs(sum - 1) > ROUNDING) {
    const cure = 'Change the chances so that they add up to 1.';
    report(
      { code: 'sum-mismatch', what: `the chances of ${id} add up to ${sum.toFixed(3)}`, cure },
      at,
      'key',
    );
  }
};

const checkAsked = (id: string, entry: FindingEntry, path: Path, report: Report): void => {
  const asked = ['question', 'who', 'cost', 'likely'] as const;
  for (const key of asked) {
    if (entry.at === 'derived' && entry[key] !== undefined) {
      report(
        { code: 'unknown-key', what: `${id} is derived, so nobody is asked and ${key} has no place` },
        [...path, key],
        'key',
      );
    }
    if (entry.at !== 'derived' && entry[key] === undefined) {
      report({ code: 'missing-key', what: `${id} is asked for but has no ${key}` }, path, 'key');
    }
  }
};

const checkNeedless = (file: VocabularyFile, entry: FindingEntry, path: Path, report: Report): void => {
  entry['needless when']?.forEach(({ finding, is }, index) => {
    const other = file.findings[finding];
    const at = [...path, 'needless when', index];
    if (other === undefined) {
      const didYouMean = suggest(finding, Object.keys(file.findings));
      report(
        { code: 'unknown-finding', what: `there is no finding ${finding}`, didYouMean },
        [...at, 'finding'],
        'value',
      );
      return;
    }
    const options = Object.keys(other.options ?? {});
    if (other.kind === 'choice' && !options.includes(String(is))) {
      const didYouMean = suggest(String(is), options);
      report(
        { code: 'not-an-option', what: `${is} is not an option of ${finding}`, didYouMean },
        [...at, 'is'],
        'value',
      );
    }
  });
};

const words = z.string().min(1);

/** `yes` and `no` stay words in YAML 1.2 and are booleans in older files; both are meant. */
const yesNo = z
  .union([z.boolean(), z.enum(['yes', 'no'])])
  .transform((said) => said === true || said === 'yes');

/** A label alone, or a label with observable signs by way of looking. */
const option = z.union([words, z.object({ label: words }).catchall(words)]);

const chance = z.number().min(0).max(1);

const finding = z.strictObject({
  group: words,
  label: words,
  question: words.optional(),
  kind: z.enum(KINDS),
  per: z.enum(['quilt', 'plan']).optional(),
  ordered: yesNo.optional(),
  options: z.record(words, option).optional(),
  range: z.strictObject({ min: z.number(), max: z.number() }).optional(),
  unit: words.optional(),
  at: words.regex(/^(derived|(client|quilt|survey)(\.(\*|[a-z_]+))+)$/),
  planned: yesNo.optional(),
  how: words,
  who: z.enum(KNOWERS).optional(),
  cost: z.int().min(1).max(5).optional(),
  /** Chance of yes; chances by choice; or values thought equally likely. */
  likely: z.union([chance, z.array(z.number()).min(1), z.record(words, chance)]).optional(),
  'needless when': z
    .array(
      z.strictObject({
        finding: words,
        is: z.union([words, z.boolean()]),
        gives: z.union([z.number(), words, z.boolean()]).optional(),
      }),
    )
    .min(1)
    .optional(),
  evidence: z.enum(EVIDENCE),
  source: words,
});

const findings = z.record(z.string().regex(/^[a-z][a-z0-9_]*$/), finding);

/** rules/findings.yaml as it is written. */
export const vocabularyFile = z.strictObject({
  groups: z.record(words, words),
  protocol: words,
  stop_rule: words,
  grades: z.record(words, z.object({ label: words }).catchall(words)),
  findings,
  family: findings,
  unit: findings,
});

export type VocabularyFile = z.infer<typeof vocabularyFile>;
export type FindingEntry = z.infer<typeof finding>;
