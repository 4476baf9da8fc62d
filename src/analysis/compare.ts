import { isDeepStrictEqual } from 'node:util';
import type { QuiltCase, RecordedDecision } from '../casebook/model.ts';
import type { StudioPractice } from '../decision/prepare.ts';
import { stageRules } from '../decision/verdicts.ts';
import { type RepairOutcome, repairOutcome } from '../experience/repair-outcome.ts';
import { inForce } from '../rulebook/assemble.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rule } from '../rulebook/model.ts';
import { judgeCase } from './judged.ts';
import type { CaseText } from './study.ts';
import { studyOf } from './study.ts';

/** What a rulebook makes of one case, in words and figures that can be laid side by side. */
export type Fingerprint = Readonly<Record<Aspect, string>>;

export const ASPECTS = [
  'standing',
  'treatment',
  'plan',
  'provisional',
  'refused uses',
  'rules cited',
  'rules undecided',
  'years',
  'holes',
  'hours',
  'price',
] as const;
export type Aspect = (typeof ASPECTS)[number];

/** A case as both books read it; a case that one of them cannot read has its fault instead. */
export interface TriedCase {
  readonly name: string;
  readonly file: string;
  readonly from: 'studio' | 'shipped';
  readonly current: QuiltCase | { readonly error: string };
  readonly candidate: QuiltCase | { readonly error: string };
  readonly practice: StudioPractice;
}

export interface CaseChange {
  readonly case: string;
  readonly file: string;
  readonly from: 'studio' | 'shipped';
  readonly changes: readonly {
    readonly of: Aspect | 'reading';
    readonly from: string;
    readonly to: string;
  }[];
  /** Rules without whose change the case would have stayed as it was; what else changed where it is none of them. */
  readonly because: readonly string[];
  /** What was decided and recorded on it, and which rules the practitioner went against. */
  readonly decided: readonly RecordedDecision[];
  /** How its repair has held, where somebody has looked since. */
  readonly outcome: RepairOutcome | null;
}

/** Rules that differ between two books, by name: changed, added or taken away. */
export function changedRules(current: readonly Rule[], candidate: readonly Rule[]): string[] {
  const ids = [...new Set([...current, ...candidate].map(({ id }) => id))].sort();
  const find = (rules: readonly Rule[], id: string): Rule | undefined => rules.find((rule) => rule.id === id);
  return ids.filter((id) => !isDeepStrictEqual(bare(find(current, id)), bare(find(candidate, id))));
}

/** A rule without what does not bear on an answer: where it stands in the file, and its history. */
const bare = (rule: Rule | undefined): unknown =>
  rule === undefined
    ? undefined
    : JSON.parse(
        JSON.stringify({ ...rule, yieldsAt: null, was: null, earlier: null }, (key, value: unknown) =>
          key === 'place' ? null : value,
        ),
      );

/** Both books over all cases. Whatever comes out otherwise is a change: unknown, undecided and unreadable among it. */
export function compareBooks(
  cases: readonly TriedCase[],
  current: Knowledge,
  candidate: Knowledge,
  asOf: string,
): CaseChange[] {
  const before = onDay(current, asOf);
  const after = onDay(candidate, asOf);
  const rules = changedRules(before.rulebook.rules, after.rulebook.rules);
  return cases.flatMap((tried): CaseChange[] => {
    const was = fingerprint(tried, tried.current, before, asOf);
    const is = fingerprint(tried, tried.candidate, after, asOf);
    const changes = differing(was, is);
    if (changes.length === 0) return [];
    const { name, file, from } = tried;
    const because = 'error' in was || 'error' in is ? [] : causes(tried, is, before, after, rules, asOf);
    const readable = [tried.current, tried.candidate].find((each) => !('error' in each)) as
      | QuiltCase
      | undefined;
    const outcome = (readable === undefined ? undefined : repairOutcome(readable)) ?? null;
    return [{ case: name, file, from, changes, because, decided: readable?.decisions ?? [], outcome }];
  });
}

const onDay = (knowledge: Knowledge, asOf: string): Knowledge => ({
  ...knowledge,
  rulebook: inForce(knowledge.rulebook, asOf),
});

/** Each changed rule is put back alone into the candidate: where the case then comes out otherwise, it had a part. */
function causes(
  tried: TriedCase,
  is: unknown,
  before: Knowledge,
  after: Knowledge,
  changed: readonly string[],
  asOf: string,
): string[] {
  const named = changed.filter((id) => {
    const old = before.rulebook.rules.filter((rule) => rule.id === id);
    const rules = [...after.rulebook.rules.filter((rule) => rule.id !== id), ...old];
    const putBack = { ...after, rulebook: { ...after.rulebook, rules: inOrder(rules, after) } };
    return !isDeepStrictEqual(fingerprint(tried, tried.candidate, putBack, asOf), is);
  });
  return named.length > 0 ? named : changed.length > 0 ? ['several rules together'] : ['figures or findings'];
}

/** Keeps the order of the book; rules put back that it lacks come last, where order means nothing. */
const inOrder = (rules: readonly Rule[], { rulebook }: Knowledge): Rule[] => {
  const place = (rule: Rule): number => {
    const index = rulebook.rules.findIndex(({ id }) => id === rule.id);
    return index < 0 ? rulebook.rules.length : index;
  };
  return [...rules].sort((a, b) => place(a) - place(b));
};

function differing(
  was: Fingerprint | { readonly error: string },
  is: Fingerprint | { readonly error: string },
): CaseChange['changes'] {
  if ('error' in was || 'error' in is) {
    const said = (each: typeof was): string => ('error' in each ? String(each.error) : 'reads');
    return said(was) === said(is) ? [] : [{ of: 'reading', from: said(was), to: said(is) }];
  }
  return ASPECTS.filter((of) => was[of] !== is[of]).map((of) => ({ of, from: was[of], to: is[of] }));
}

function fingerprint(
  { file, from, practice }: TriedCase,
  read: QuiltCase | { readonly error: string },
  knowledge: Knowledge,
  asOf: string,
): Fingerprint | { readonly error: string } {
  if ('error' in read) return read;
  const text: CaseText = { file, from, quiltCase: read, practice };
  const { situation } = studyOf(text, knowledge, practice, asOf);
  const judged = judgeCase(situation, stageRules(knowledge.rulebook), knowledge.subjects);
  const best = judged.treatment === null ? undefined : situation.options[judged.outcome.best ?? -1];
  const listed = (words: Iterable<string>): string => [...words].sort().join(', ') || 'none';
  const round = (value: number): string => String(Math.round(value * 10) / 10);
  const of = (say: (option: NonNullable<typeof best>) => string): string =>
    best === undefined ? 'none' : say(best);
  return {
    standing: judged.standing,
    treatment: judged.treatment ?? 'none',
    plan: of(({ plan }) => plan.id),
    provisional: judged.provisional ? 'yes' : 'no',
    'refused uses': listed(judged.refused_uses),
    'rules cited': listed(judged.cited),
    'rules undecided': listed(judged.undecided),
    years: of(({ estimates: { life } }) => `${round(life.low)} to ${round(life.high)}`),
    holes: of(({ estimates: { holes } }) =>
      round(holes.newOldFace + holes.newOldAllowance + holes.newOldBacking),
    ),
    hours: of(({ estimates: { hours } }) => `${round(hours.low)} to ${round(hours.high)}`),
    price: of(({ estimates: { price } }) => `${round(price.low)} to ${round(price.high)}`),
  };
}
