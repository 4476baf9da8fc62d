import { parseDocument } from 'yaml';
import { type Edit, editCase } from '../casebook/edit-case.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import type { Path, Source } from '../source/source.ts';

/** Why and from when a rule is changed. */
export interface Occasion {
  /** `YYYY-MM-DD`. */
  readonly on: string;
  readonly reason: string;
}

/** One value to set in a rule: `when.all.1.at most` and what should stand there; undefined takes it away. */
export interface Setting {
  readonly path: string;
  readonly value: unknown;
}

const refuse = (code: Problem['code'], what: string, cure: string): never => {
  throw new ProblemError([{ code, severity: 'error', what, cure }]);
};

type Raw = Readonly<Record<string, unknown>>;

/** The rule's place in its file, and how it reads now. */
function find(source: Source, id: string): { index: number; raw: Raw } {
  const rules = (Array.isArray(source.value) ? source.value : []) as readonly Raw[];
  const index = rules.findIndex(({ rule }) => rule === id);
  const raw = rules[index];
  return raw === undefined
    ? refuse('unknown-rule', `${source.file} holds no rule "${id}"`, 'Check the name.')
    : { index, raw };
}

/**
 * The file with a rule changed from a day on. What stood there is kept in the rule's `was`, so that it shows how it
 * came to be and still decides as it did on earlier days. Comments, order and every other line stay.
 */
export function amend(source: Source, id: string, settings: readonly Setting[], occasion: Occasion): string {
  const { index, raw } = find(source, id);
  const real = settings.filter(({ path, value }) => JSON.stringify(at(raw, path)) !== JSON.stringify(value));
  if (real.length === 0)
    refuse('usage', `"${id}" already reads like that`, 'Say what should be otherwise with --set.');
  const since = String(raw.since);
  if (occasion.on < since) {
    refuse(
      'dates-disagree',
      `the change would hold from ${occasion.on}, before the rule itself, which holds since ${since}`,
      'Use a day on or after it.',
    );
  }
  const changed = Object.fromEntries([
    ...real.map(({ path }) => [path, at(raw, path) ?? null] as const),
    ['since', since] as const,
  ]);
  return edited(source, { index, raw }, [...real, { path: 'since', value: occasion.on }], {
    ...occasion,
    changed,
  });
}

/** The file with a rule that ends on a day. It is kept, so that decisions made by it can be understood. */
export function retire(source: Source, id: string, occasion: Occasion): string {
  const { index, raw } = find(source, id);
  if (raw.until !== undefined)
    refuse('usage', `"${id}" was retired already, on ${String(raw.until)}`, 'Nothing is left to do.');
  if (occasion.on <= String(raw.since)) {
    refuse(
      'dates-disagree',
      `it would end on ${occasion.on}, but it holds since ${String(raw.since)}`,
      'Use a later day.',
    );
  }
  return edited(source, { index, raw }, [{ path: 'until', value: occasion.on }], {
    ...occasion,
    changed: { until: null },
  });
}

function edited(
  source: Source,
  { index, raw }: { readonly index: number; readonly raw: Raw },
  settings: readonly Setting[],
  { on, reason, changed }: Occasion & { readonly changed: Raw },
): string {
  const was = { until: on, reason, changed };
  const steps = (path: string): Path => [index, ...path.split('.').map(step)];
  const length = Array.isArray(raw.was) ? raw.was.length : undefined;
  const history: Edit =
    length === undefined
      ? { path: [index, 'was'], value: [was] }
      : { path: [index, 'was', length], value: was };
  return editCase(source, [...settings.map(({ path, value }) => ({ path: steps(path), value })), history]);
}

const step = (name: string): string | number => (/^\d+$/.test(name) ? Number(name) : name);

const at = (raw: unknown, path: string): unknown =>
  path
    .split('.')
    .reduce<unknown>(
      (here, name) => (typeof here === 'object' && here !== null ? Reflect.get(here, name) : undefined),
      raw,
    );

/** A rule to be added, in the file's own words. */
export interface NewRule {
  readonly rule: string;
  readonly title: string;
  readonly when: unknown;
  readonly effects: unknown;
  readonly because: string;
  readonly evidence: string;
  readonly source: string;
  readonly since: string;
}

/** The file with a rule more at its end, laid out like its neighbours. */
export function add(source: Source, { effects, ...rule }: NewRule): string {
  const { rule: id, title, when, ...rest } = rule;
  const doc = parseDocument('[]');
  const entry = doc.createNode([
    Object.fromEntries([
      ['rule', id],
      ['title', title],
      ['when', when],
      ['then', effects],
      ...Object.entries(rest),
    ]),
  ]);
  doc.contents = entry as never;
  const text = doc.toString({ lineWidth: 0 }).trimEnd();
  const windows = source.text.includes('\r\n');
  const whole = `${source.text.trimEnd().replaceAll('\r\n', '\n')}\n\n${text}\n`;
  return windows ? whole.replaceAll('\n', '\r\n') : whole;
}
