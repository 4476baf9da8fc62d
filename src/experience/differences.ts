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

/** Joins and their causes, units and their states: one answer each, or the sums would not add up. */
const TOGETHER = [
  ['survey', 'joins'],
  ['survey', 'counts'],
] as const;

/** Whether two differences go over together, so that trying one tries the other. */
export const changeKey = ({ a }: Difference): string => {
  const whole = TOGETHER.find((group) => group.every((name, i) => a.path[i] === name));
  return (whole ?? a.path).join('.');
};

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
