import type { QuiltCase } from '../casebook/model.ts';
import type { SecondSurvey } from '../casebook/second-survey.ts';
import type { DecisionContext } from '../decision/context.ts';
import { verdictOf } from '../decision/evaluate.ts';
import { sameVerdict, type Verdict } from '../decision/verdict.ts';
import { type Difference, differences, type Topic, topicsOf, withAnswer, withTopic } from './differences.ts';
import { filled } from './filled.ts';

/** One surveyor's view of a quilt. */
export interface View {
  readonly helper: string;
  readonly quiltCase: QuiltCase;
  readonly verdict: Verdict;
}

/** What becomes of one helper's answer where another helper's finding is put in its place. */
export interface Swing {
  readonly helper: string;
  readonly from: Verdict;
  /** The helper whose finding was put in. */
  readonly with: string;
  readonly to: Verdict;
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
  ].map((view) => ({ ...view, verdict: verdictOf(view.quiltCase, context) }));

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
        const to = verdictOf(withTopic(mine.quiltCase, other.quiltCase, topic), context);
        if (sameVerdict(mine.verdict, to)) continue;
        gathering.swings.push({ helper: mine.helper, from: mine.verdict, with: other.helper, to });
        for (const unit of unitsAlone(mine, other, topic, context)) gathering.units.add(unit);
      }
    }
  }
  const all = [...found.values()].map(
    ({ units, ...rest }): Disagreement => ({ case: base.case, ...rest, units: [...units] }),
  );
  const [first] = views;
  const differ = views.some(({ verdict }) => first !== undefined && !sameVerdict(verdict, first.verdict));
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
          return !sameVerdict(mine.verdict, verdictOf(mixed, context));
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
