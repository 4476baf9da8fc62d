import type { Path } from '../source/source.ts';

/** Answers so far, in the terms and the shape of a case file. `unknown` stands where somebody said "not known". */
export type Answers = Readonly<Record<string, unknown>>;

export const UNKNOWN = 'unknown';

/** Where an interview keeps what belongs to itself, such as whether the map or only counts are given. Never written to a case. */
export const ASIDE = 'interview';

export const isGroup = (value: unknown): value is Answers =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What stands at a path; undefined where nobody has said anything. */
export const answerAt = (answers: unknown, path: Path): unknown =>
  path.reduce<unknown>((here, step) => {
    if (Array.isArray(here)) return here[Number(step)];
    return isGroup(here) && Object.hasOwn(here, step) ? here[step] : undefined;
  }, answers);

export const textAt = (answers: Answers, path: Path): string | undefined => {
  const value = answerAt(answers, path);
  return typeof value === 'string' && value !== UNKNOWN ? value : undefined;
};

export const numberAt = (answers: Answers, path: Path): number | undefined => {
  const value = answerAt(answers, path);
  return typeof value === 'number' ? value : undefined;
};

const put = (here: unknown, [step, ...rest]: Path, value: unknown): unknown => {
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list: unknown[] = Array.isArray(here) ? [...here] : [];
    list[step] = put(list[step], rest, value);
    return list;
  }
  const group: Record<string, unknown> = isGroup(here) ? { ...here } : {};
  const inner = put(group[step], rest, value);
  if (inner === undefined) delete group[step];
  else group[step] = inner;
  return group;
};

/** The answers with one more; `undefined` takes one out. */
export const withAnswer = (answers: Answers, path: Path, value: unknown): Answers => {
  const next = put(answers, path, value);
  return isGroup(next) ? next : {};
};

/** The answers without those at some paths. */
export const without = (answers: Answers, paths: readonly Path[]): Answers =>
  paths.reduce<Answers>(
    (rest, path) => (answerAt(rest, path) === undefined ? rest : withAnswer(rest, path, undefined)),
    answers,
  );

/** `over` laid over `under`: groups merge line by line, everything else is replaced. */
export const laidOver = (under: unknown, over: unknown): unknown => {
  if (!isGroup(under) || !isGroup(over)) return over === undefined ? under : over;
  const merged: Record<string, unknown> = { ...under };
  for (const [name, value] of Object.entries(over)) merged[name] = laidOver(merged[name], value);
  return merged;
};

export const mergedAnswers = (under: Answers, over: Answers): Answers => {
  const merged = laidOver(under, over);
  return isGroup(merged) ? merged : {};
};

/** Every value with its path; a list counts as one value. */
export const leavesOf = (answers: Answers, at: Path = []): { path: Path; value: unknown }[] =>
  Object.entries(answers).flatMap(([name, value]) => {
    const path = [...at, name];
    return isGroup(value) ? leavesOf(value, path) : [{ path, value }];
  });
