import { z } from 'zod';
import type { Problem } from '../problems/problem.ts';
import { readDate } from '../quantities/date.ts';
import { readShare } from '../quantities/measure.ts';
import type { Path, Source } from '../source/source.ts';
import { suggest } from '../source/suggest.ts';
import { EVIDENCE, type Evidence, type Figure, type Figures, figureSet } from './model.ts';

const THREE = ['low', 'likely', 'high'] as const;
const KEYS = ['value', ...THREE, 'unit', 'per', 'spread', 'evidence', 'source', 'since', 'note', 'was'];

type Group = Readonly<Record<string, unknown>>;

/** Everything wrong with one file of figures, gathered as it is read. */
class Reading {
  readonly source: Source;
  readonly problems: Problem[] = [];
  readonly figures: Figure[] = [];

  constructor(source: Source) {
    this.source = source;
  }

  report(said: Pick<Problem, 'code' | 'what'>, path: Path, which: 'key' | 'value', near?: string): void {
    this.problems.push({
      ...said,
      severity: 'error',
      place: this.source.place(path, which),
      ...(near === undefined ? {} : { didYouMean: near }),
    });
  }
}

/**
 * Figures of judgement from a file: nested groups whose leaves hold `value`, or `low`, `likely` and `high`; always
 * `evidence`, `source` and `since`. A number may be written as a percentage, which is a fraction; `unit` and `per`
 * become one unit, such as `min per 12 in`. With any problem there are no figures, and all problems come back together.
 */
export const readFigures = (source: Source): { figures?: Figures; problems: Problem[] } => {
  const reading = new Reading(source);
  if (isGroup(source.value)) readGroup(reading, source.value, []);
  else
    reading.report(
      { code: 'wrong-kind', what: 'a file of figures is a group of named figures' },
      [],
      'value',
    );
  const { problems } = reading;
  return problems.length > 0 ? { problems } : { figures: figureSet(reading.figures, source.file), problems };
};

const isGroup = (value: unknown): value is Group =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isLeaf = (group: Group): boolean => ['value', ...THREE].some((key) => key in group);

const readGroup = (reading: Reading, group: Group, path: Path): void => {
  for (const [key, child] of Object.entries(group)) {
    const at = [...path, key];
    if (key.includes('.')) {
      reading.report(
        { code: 'unknown-key', what: `"${key}" holds a dot, which separates groups` },
        at,
        'key',
      );
    } else if (!isGroup(child)) {
      const what = KEYS.includes(key)
        ? `"${key}" belongs to a figure, and ${path.at(-1) ?? 'the file'} has neither value nor low, likely and high`
        : `"${key}" must be a figure with value, evidence, source and since, or a group of figures`;
      reading.report({ code: 'wrong-kind', what }, at, 'key');
    } else if (isLeaf(child)) {
      readFigure(reading, child, at);
    } else if (Object.keys(child).length === 0) {
      reading.report({ code: 'missing-key', what: `"${key}" holds no figure` }, at, 'key');
    } else {
      readGroup(reading, child, at);
    }
  }
};

const readFigure = (reading: Reading, leaf: Group, path: Path): void => {
  const before = reading.problems.length;
  const id = path.join('.');
  for (const key of Object.keys(leaf).filter((name) => !KEYS.includes(name))) {
    const what = `a figure has no "${key}"`;
    reading.report({ code: 'unknown-key', what }, [...path, key], 'key', suggest(key, KEYS));
  }
  const amounts = readAmounts(reading, leaf, path);
  const spread = 'spread' in leaf ? readNumber(reading, leaf, 'spread', path) : undefined;
  if (spread !== undefined && spread < 0) {
    reading.report(
      { code: 'out-of-range', what: `the spread of ${id} is below nothing` },
      [...path, 'spread'],
      'value',
    );
  }
  const unit = readText(reading, leaf, 'unit', path);
  const per = readText(reading, leaf, 'per', path);
  readText(reading, leaf, 'note', path);
  const evidence = readText(reading, leaf, 'evidence', path);
  const origin = readText(reading, leaf, 'source', path);
  const since = readText(reading, leaf, 'since', path);
  if (evidence !== undefined && !isEvidence(evidence)) {
    const what = `the evidence of ${id} is "${evidence}", not one of: ${EVIDENCE.join(', ')}`;
    reading.report(
      { code: 'not-an-option', what },
      [...path, 'evidence'],
      'value',
      suggest(evidence, EVIDENCE),
    );
  }
  if (since !== undefined && readDate(since) === undefined) {
    reading.report(
      { code: 'bad-date', what: `"${since}" is not a date like 2026-03-05` },
      [...path, 'since'],
      'value',
    );
  }
  if ('was' in leaf && !(Array.isArray(leaf.was) && leaf.was.every(isGroup))) {
    reading.report(
      { code: 'wrong-kind', what: '"was" is a list of earlier wordings' },
      [...path, 'was'],
      'value',
    );
  }
  if (reading.problems.length > before || amounts === undefined) return;
  if (evidence === undefined || !isEvidence(evidence) || origin === undefined || since === undefined) return;
  const whole = [unit, per].filter((part) => part !== undefined).join(' per ');
  reading.figures.push({ id, ...amounts, unit: whole, spread, evidence, source: origin, since });
};

const isEvidence = (text: string): text is Evidence => EVIDENCE.some((kind) => kind === text);

const readAmounts = (
  reading: Reading,
  leaf: Group,
  path: Path,
): { low: number; likely: number; high: number } | undefined => {
  const id = path.join('.');
  const given = THREE.filter((key) => key in leaf);
  if ('value' in leaf) {
    for (const key of given) {
      reading.report(
        { code: 'unknown-key', what: `${id} has a value, so it has no "${key}"` },
        [...path, key],
        'key',
      );
    }
    const value = readNumber(reading, leaf, 'value', path);
    return value === undefined ? undefined : { low: value, likely: value, high: value };
  }
  for (const key of THREE.filter((name) => !given.includes(name))) {
    reading.report({ code: 'missing-key', what: `${id} has no "${key}"` }, path, 'key');
  }
  const [low, likely, high] = THREE.map((key) =>
    key in leaf ? readNumber(reading, leaf, key, path) : undefined,
  );
  if (low === undefined || likely === undefined || high === undefined) return undefined;
  if (low > likely || likely > high) {
    const [key, what] =
      low > likely ? ['low', `low (${low}) is above likely`] : ['high', `high (${high}) is below likely`];
    reading.report({ code: 'out-of-range', what: `${id}: ${what} (${likely})` }, [...path, key], 'value');
  }
  return { low, likely, high };
};

const readNumber = (reading: Reading, leaf: Group, key: string, path: Path): number | undefined => {
  const raw = leaf[key];
  const value = typeof raw === 'string' && raw.includes('%') ? readShare(raw) : raw;
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  const what = `${path.join('.')}: "${key}" must be a number or a percentage`;
  reading.report({ code: 'wrong-kind', what }, [...path, key], 'value');
  return undefined;
};

const REQUIRED: ReadonlySet<string> = new Set(['evidence', 'source', 'since']);

const readText = (reading: Reading, leaf: Group, key: string, path: Path): string | undefined => {
  if (!(key in leaf)) {
    if (REQUIRED.has(key))
      reading.report({ code: 'missing-key', what: `${path.join('.')} has no "${key}"` }, path, 'key');
    return undefined;
  }
  const raw = leaf[key];
  if (typeof raw === 'string' && raw.trim() !== '') return raw.trim();
  reading.report(
    { code: 'wrong-kind', what: `${path.join('.')}: "${key}" must be text` },
    [...path, key],
    'value',
  );
  return undefined;
};

const amount = z.union([z.number(), z.string().regex(/^\s*-?\d+(\.\d+)?\s*%\s*$/)]);
const about = {
  unit: z.string().optional(),
  per: z.string().optional(),
  spread: z.number().min(0).optional(),
  note: z.string().optional(),
  evidence: z.enum(EVIDENCE),
  source: z.string().min(1),
  since: z.string().regex(/^\d{4}-\d\d-\d\d$/),
  was: z.array(z.record(z.string(), z.unknown())).optional(),
};

const figure = z.union([
  z.strictObject({ value: amount, ...about }),
  z.strictObject({ low: amount, likely: amount, high: amount, ...about }),
]);

type FiguresOnFile = { [name: string]: z.infer<typeof figure> | FiguresOnFile };

/** figures.yaml as an editor should know it: groups of figures, nested as deep as need be. */
export const figuresSchema: z.ZodType<FiguresOnFile> = z.lazy(() =>
  z.record(z.string(), z.union([figure, figuresSchema])),
);
