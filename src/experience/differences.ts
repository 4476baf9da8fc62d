import type { QuiltCase } from '../casebook/model.ts';
import type { FindingDef, Vocabulary } from '../findings/vocabulary.ts';
import { type Judged, judgedIn } from './judged.ts';

/** One thing on which two surveys of a quilt say different things. */
export interface Difference {
  readonly finding: string;
  readonly label: string;
  readonly thing: string;
  readonly def: FindingDef | undefined;
  readonly a: Judged;
  readonly b: Judged;
}

/**
 * Where two surveys differ, in the order of the vocabulary. What only one of them states is no difference: the other
 * has not looked, or did not know.
 */
export const differences = (a: QuiltCase, b: QuiltCase, vocabulary: Vocabulary): Difference[] => {
  const others = new Map(judgedIn(b, vocabulary).map((one) => [one.path.join('.'), one]));
  return judgedIn(a, vocabulary).flatMap((mine): Difference[] => {
    const other = others.get(mine.path.join('.'));
    if (other === undefined || other.value === mine.value) return [];
    const { finding, label, thing, def } = mine;
    return [{ finding, label, thing, def, a: mine, b: other }];
  });
};

/** `onto` with the answer that stands at a path of `from`. Counts that must add up go over together. */
export const withAnswer = (
  onto: QuiltCase,
  from: QuiltCase,
  path: readonly (string | number)[],
): QuiltCase => {
  const whole = TOGETHER.find((group) => group.every((name, i) => path[i] === name)) ?? path;
  return put(onto, whole, valueAt(from, whole)) as QuiltCase;
};

/** Joins and their causes, and counts of states: one answer each, or the sums would not add up. */
const TOGETHER = [
  ['survey', 'joins'],
  ['survey', 'counts'],
] as const;

const valueAt = (value: unknown, path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>(
    (here, name) => (typeof here === 'object' && here !== null ? Reflect.get(here, name) : undefined),
    value,
  );

const put = (here: unknown, [name, ...rest]: readonly (string | number)[], value: unknown): unknown => {
  if (name === undefined) return value;
  if (Array.isArray(here)) {
    return here.map((entry, index) => (index === Number(name) ? put(entry, rest, value) : entry));
  }
  const group = typeof here === 'object' && here !== null ? here : {};
  return { ...group, [name]: put(Reflect.get(group, name), rest, value) };
};

/** Differences that are talked about as one: the states of all units, joins with their causes, counts. */
export interface Topic {
  readonly key: string;
  readonly label: string;
  readonly differences: readonly Difference[];
}

const WHOLE: Readonly<Record<string, string>> = {
  'survey.units': 'states of units',
  'survey.joins': 'open joins and their causes',
  'survey.counts': 'counts of units by state',
};

/** Differences sorted into topics, in the order in which they first come up. */
export const topicsOf = (all: readonly Difference[]): Topic[] => {
  const found = new Map<string, { key: string; label: string; differences: Difference[] }>();
  for (const difference of all) {
    const own = difference.a.path;
    const whole = own.slice(0, 2).join('.');
    const label = WHOLE[whole];
    const key = label === undefined ? own.join('.') : whole;
    const topic = found.get(key) ?? { key, label: label ?? difference.label, differences: [] };
    topic.differences.push(difference);
    found.set(key, topic);
  }
  return [...found.values()];
};

/** `onto` with everything a topic says as `from` has it. */
export const withTopic = (onto: QuiltCase, from: QuiltCase, topic: Topic): QuiltCase =>
  topic.differences.reduce((mixed, { a }) => withAnswer(mixed, from, a.path), onto);
