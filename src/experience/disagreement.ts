import type { QuiltCase } from '../casebook/model.ts';
import type { SecondSurvey } from '../casebook/second-survey.ts';
import type { FindingDef } from '../findings/vocabulary.ts';
import { changeKey, type Difference, differences, withAnswer } from './differences.ts';
import { filled } from './filled.ts';
import { type Court, sameVerdict, type Verdict, verdictOf } from './outcome-of.ts';

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

/** A finding on which surveys of one quilt differ, and what hangs on it. */
export interface Disagreement {
  readonly case: string;
  readonly finding: string;
  readonly label: string;
  readonly thing: string;
  readonly def: FindingDef | undefined;
  readonly said: readonly { readonly helper: string; readonly value: string | number | boolean }[];
  /** Mixtures that came out otherwise; empty where nothing hangs on it by itself. */
  readonly swings: readonly Swing[];
  /** Of how many mixtures tried. */
  readonly tried: number;
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
export const FIRST = 'first survey';

/** What each surveyor found, the first one first, and what follows from it. */
const viewsOf = (base: QuiltCase, others: readonly SecondSurvey[], court: Court): View[] =>
  [
    { helper: base.survey.by ?? FIRST, quiltCase: base },
    ...others.map((second) => ({ helper: second.by, quiltCase: filled(base, second) })),
  ].map((view) => ({ ...view, verdict: verdictOf(view.quiltCase, court) }));

/**
 * What surveys of one quilt disagree on, and which of it changes standing or treatment: the decision is run on each
 * helper's findings, and on every mixture that differs from them in one finding of another helper's. Joins with their
 * causes, and counts of states, count as one finding each.
 */
export const disagreements = (
  base: QuiltCase,
  others: readonly SecondSurvey[],
  court: Court,
): Disagreements => {
  const views = viewsOf(base, others, court);
  const found = new Map<string, { difference: Difference; said: Map<string, Difference['a']['value']> }>();
  const swings = new Map<string, { pairs: Set<string>; swings: Swing[] }>();
  for (const mine of views) {
    for (const other of views.filter((view) => view !== mine)) {
      for (const difference of differences(mine.quiltCase, other.quiltCase, court.knowledge.vocabulary)) {
        const place = difference.a.path.join('.');
        const entry = found.get(place) ?? { difference, said: new Map() };
        entry.said.set(mine.helper, difference.a.value);
        entry.said.set(other.helper, difference.b.value);
        found.set(place, entry);
        const key = changeKey(difference);
        const tally = swings.get(key) ?? { pairs: new Set(), swings: [] };
        swings.set(key, tally);
        const pair = `${mine.helper} ${other.helper}`;
        if (tally.pairs.has(pair)) continue;
        tally.pairs.add(pair);
        const to = verdictOf(withAnswer(mine.quiltCase, other.quiltCase, difference.a.path), court);
        if (!sameVerdict(mine.verdict, to))
          tally.swings.push({ helper: mine.helper, from: mine.verdict, with: other.helper, to });
      }
    }
  }
  const all = [...found.values()].map(({ difference, said }): Disagreement => {
    const { finding, label, thing, def } = difference;
    const tally = swings.get(changeKey(difference));
    return {
      case: base.case,
      finding,
      label,
      thing,
      def,
      said: views
        .filter(({ helper }) => said.has(helper))
        .map(({ helper }) => ({ helper, value: said.get(helper) ?? '' })),
      swings: tally?.swings ?? [],
      tried: tally?.pairs.size ?? 0,
    };
  });
  const [first] = views;
  const differ = views.some(({ verdict }) => first !== undefined && !sameVerdict(verdict, first.verdict));
  return {
    case: base.case,
    views,
    all: byWeight(all),
    onlyTogether: differ && all.every((one) => one.swings.length === 0),
  };
};

const share = ({ swings, tried: of }: Disagreement): number => (of === 0 ? 0 : swings.length / of);
const standings = ({ swings }: Disagreement): number =>
  swings.filter(({ from, to }) => from.standing !== to.standing).length;

/** What changes the answer in most mixtures first; a change of standing outweighs one of treatment. Stable beyond that. */
const byWeight = (all: readonly Disagreement[]): Disagreement[] =>
  [...all].sort((a, b) => share(b) - share(a) || standings(b) - standings(a));

/** Those that change standing or treatment. */
export const thatMatter = ({ all }: Disagreements): readonly Disagreement[] =>
  all.filter(({ swings }) => swings.length > 0);
