import type { Family, QuiltCase, Survey } from '../casebook/model.ts';
import type { UnitState } from '../casebook/scales.ts';
import type { SecondSurvey } from '../casebook/second-survey.ts';
import { type Recommendation, sameRecommendation } from '../decision/answer-model.ts';
import type { DecisionContext } from '../decision/context.ts';
import { recommendationOf } from '../decision/evaluate.ts';
import type { FindingDef, Vocabulary } from '../findings/vocabulary.ts';
import { type Grading, gradingsIn } from './grading.ts';

/** One surveyor's view of a quilt. */
interface View {
  readonly helper: string;
  readonly quiltCase: QuiltCase;
  readonly verdict: Recommendation;
}

/** What becomes of one helper's answer where another helper's finding is put in its place. */
interface Swing {
  readonly helper: string;
  readonly from: Recommendation;
  /** The helper whose finding was put in. */
  readonly with: string;
  readonly to: Recommendation;
}

/** Something on which surveys of one quilt differ, and what hangs on it. */
export interface Disagreement {
  readonly case: string;
  readonly label: string;
  /** Two surveys each: who said what of what. */
  readonly pairs: readonly { readonly a: string; readonly b: string; readonly topic: Topic }[];
  /** Mixtures that came out otherwise; empty where nothing hangs on it by itself. */
  readonly swings: readonly Swing[];
  /** Of how many mixtures tried. */
  readonly tried: number;
  /** Units whose state alone changes the answer, where it is the states of units that do. */
  readonly units: readonly string[];
}

export interface Disagreements {
  readonly case: string;
  readonly views: readonly View[];
  /** Those that change standing or treatment first, the widest swing first; then the rest. */
  readonly all: readonly Disagreement[];
  /** True where the helpers' answers differ and no single finding accounts for it. */
  readonly onlyTogether: boolean;
}

/** The first surveyor, where the case names none. */
export const FIRST = 'the first survey';

/** What each surveyor found, the first one first, and what follows from it. */
const viewsOf = (base: QuiltCase, others: readonly SecondSurvey[], context: DecisionContext): View[] =>
  [
    { helper: base.survey.by ?? FIRST, quiltCase: base },
    ...others.map((second) => ({ helper: second.by, quiltCase: filled(base, second) })),
  ].map((view) => ({ ...view, verdict: recommendationOf(view.quiltCase, context) }));

interface Gathering {
  readonly label: string;
  readonly pairs: { a: string; b: string; topic: Topic }[];
  readonly swings: Swing[];
  readonly units: Set<string>;
  tried: number;
}

/**
 * What surveys of one quilt disagree on, and which of it changes standing or treatment: the decision is run on each
 * helper's findings, and on every mixture that differs from them in one finding of another helper's. The states of all
 * units, joins with their causes, and counts are one finding each; where the states of units change the answer, each
 * unit is tried by itself too.
 */
export const disagreements = (
  base: QuiltCase,
  others: readonly SecondSurvey[],
  context: DecisionContext,
): Disagreements => {
  const views = viewsOf(base, others, context);
  const found = new Map<string, Gathering>();
  for (const [index, mine] of views.entries()) {
    for (const [place, other] of views.entries()) {
      if (place === index) continue;
      const all = differences(mine.quiltCase, other.quiltCase, context.knowledge.vocabulary);
      for (const topic of topicsOf(all)) {
        const { key, label } = topic;
        const gathering = found.get(key) ?? { label, pairs: [], swings: [], units: new Set(), tried: 0 };
        found.set(key, gathering);
        if (place > index) gathering.pairs.push({ a: mine.helper, b: other.helper, topic });
        gathering.tried += 1;
        const to = recommendationOf(withTopic(mine.quiltCase, other.quiltCase, topic), context);
        if (sameRecommendation(mine.verdict, to)) continue;
        gathering.swings.push({ helper: mine.helper, from: mine.verdict, with: other.helper, to });
        for (const unit of unitsAlone(mine, other, topic, context)) gathering.units.add(unit);
      }
    }
  }
  const all = [...found.values()].map(
    ({ units, ...rest }): Disagreement => ({ case: base.case, ...rest, units: [...units] }),
  );
  const [first] = views;
  const differ = views.some(
    ({ verdict }) => first !== undefined && !sameRecommendation(verdict, first.verdict),
  );
  return {
    case: base.case,
    views,
    all: byWeight(all),
    onlyTogether: differ && all.every((one) => one.swings.length === 0),
  };
};

/** Where the states of units change the answer: the units that do so by themselves. */
const unitsAlone = (
  mine: View,
  other: View,
  { key, differences: all }: Topic,
  context: DecisionContext,
): string[] =>
  key !== 'survey.units'
    ? []
    : all
        .filter(({ a }: Difference) => {
          const mixed = withAnswer(mine.quiltCase, other.quiltCase, a.path);
          return !sameRecommendation(mine.verdict, recommendationOf(mixed, context));
        })
        .map(({ thing }) => thing.replace(/^unit /, ''));

const share = ({ swings, tried: of }: Disagreement): number => (of === 0 ? 0 : swings.length / of);
const standings = ({ swings }: Disagreement): number =>
  swings.filter(({ from, to }) => from.standing !== to.standing).length;

/** What changes the answer in most mixtures first; a change of standing outweighs one of treatment. Stable beyond that. */
export const byWeight = (all: readonly Disagreement[]): Disagreement[] =>
  [...all].sort((a, b) => share(b) - share(a) || standings(b) - standings(a));

/** Those that change standing or treatment. */
export const thatMatter = ({ all }: Disagreements): readonly Disagreement[] =>
  all.filter(({ swings }) => swings.length > 0);

/** One thing on which two surveys of a quilt say different things. */
interface Difference {
  readonly finding: string;
  readonly label: string;
  readonly thing: string;
  readonly def: FindingDef | undefined;
  readonly a: Grading;
  readonly b: Grading;
}

/**
 * Where two surveys differ, in the order of the vocabulary. What only one of them states is no difference: the other
 * has not looked, or did not know.
 */
export const differences = (a: QuiltCase, b: QuiltCase, vocabulary: Vocabulary): Difference[] => {
  const others = new Map(gradingsIn(b, vocabulary).map((one) => [one.path.join('.'), one]));
  return gradingsIn(a, vocabulary).flatMap((mine): Difference[] => {
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
interface Topic {
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
const topicsOf = (all: readonly Difference[]): Topic[] => {
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
const withTopic = (onto: QuiltCase, from: QuiltCase, topic: Topic): QuiltCase =>
  topic.differences.reduce((mixed, { a }) => withAnswer(mixed, from, a.path), onto);

/**
 * The case as it would stand on the second survey: what that survey states holds, and what it leaves out is taken from
 * the first, because not having looked is no disagreement. Later looks are kept: they override both surveys alike.
 */
export const filled = (base: QuiltCase, { survey, quilt }: SecondSurvey): QuiltCase => ({
  ...base,
  quilt: over(base.quilt, quilt ?? {}),
  survey: surveyOver(base.survey, survey),
});

const isGroup = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** `later` laid over `earlier`, group by group. */
const over = <T extends object>(earlier: T, later: Partial<T>): T => {
  const merged = { ...earlier } as Record<string, unknown>;
  for (const [name, value] of Object.entries(later)) {
    const before = merged[name];
    merged[name] = isGroup(before) && isGroup(value) ? over(before, value) : value;
  }
  return merged as T;
};

const surveyOver = (first: Survey, second: Survey): Survey => {
  const { units, counts, joins, families, findings, family_map, seen } = second;
  const { units: firstUnits, counts: firstCounts, ...rest } = first;
  const map = units === undefined ? undefined : seenOver(firstUnits, units);
  // A map and a count say the same thing in two ways: the second survey's holds alone.
  const states =
    map !== undefined
      ? { units: map }
      : counts !== undefined
        ? { counts }
        : { ...(firstUnits ? { units: firstUnits } : {}), ...(firstCounts ? { counts: firstCounts } : {}) };
  return {
    ...rest,
    ...states,
    seen,
    ...(joins ? { joins } : {}),
    ...(family_map ? { family_map } : {}),
    ...(families || first.families ? { families: familiesOver(first.families ?? {}, families ?? {}) } : {}),
    findings: { ...first.findings, ...findings },
  };
};

const familiesOver = (
  first: Readonly<Record<string, Family>>,
  second: Readonly<Record<string, Family>>,
): Readonly<Record<string, Family>> =>
  Object.fromEntries(
    [...new Set([...Object.keys(first), ...Object.keys(second)])].map((letter) => [
      letter,
      { ...first[letter], ...second[letter] },
    ]),
  );

/** Units not looked at keep what the first survey says of them. */
const seenOver = (
  first: readonly (readonly UnitState[])[] | undefined,
  second: readonly (readonly UnitState[])[],
): readonly (readonly UnitState[])[] =>
  second.map((row, r) => row.map((state, c) => (state === 'unseen' ? (first?.[r]?.[c] ?? state) : state)));
