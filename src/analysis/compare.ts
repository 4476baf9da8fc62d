import { isDeepStrictEqual } from 'node:util';
import type { QuiltCase, RecordedDecision } from '../casebook/model.ts';
import type { StudioPractice } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import { recommendedOption, type Settled } from '../decision/outcome.ts';
import { newHolesInOldCloth } from '../decision/situation.ts';
import { type RepairOutcome, repairOutcome } from '../experience/due.ts';
import { evaluateRule } from '../rulebook/evaluate.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { AlignedRulebooks, ChangedRule } from './align-rulebooks.ts';
import { readingsOf, resultOf } from './study.ts';

/** A case as both books read it; a case that one of them cannot read has its fault instead. */
export interface TriedCase {
  readonly name: string;
  readonly file: string;
  readonly from: 'studio' | 'shipped';
  readonly current: QuiltCase | { readonly error: string };
  /** The very same object where both books read it alike. */
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

/** Both books over one case. Whatever comes out otherwise is a change: unknown, undecided and unreadable among it. */
export function compareOn(tried: TriedCase, books: AlignedRulebooks, asOf: string): CaseChange | undefined {
  const { name, file, from, current, candidate, practice } = tried;
  const told = (changes: CaseChange['changes'], because: readonly string[]): CaseChange | undefined => {
    if (changes.length === 0) return undefined;
    const readable = [current, candidate].find((each): each is QuiltCase => !('error' in each));
    const outcome = (readable === undefined ? undefined : repairOutcome(readable)) ?? null;
    return { case: name, file, from, changes, because, decided: readable?.decisions ?? [], outcome };
  };
  if ('error' in current || 'error' in candidate) return told(differingReading(current, candidate), []);
  const was = evaluate(current, { knowledge: books.before, practice, day: asOf });
  const is = evaluate(candidate, { knowledge: books.after, practice, day: asOf });
  const before = fingerprint(was, books.before);
  const after = fingerprint(is, books.after);
  const changes = ASPECTS.filter((of) => before[of] !== after[of]).map((of) => ({
    of,
    from: before[of],
    to: after[of],
  }));
  if (changes.length === 0) return undefined;
  // Each changed rule is put back alone into the candidate: where the case then comes out otherwise, it had a part.
  const named = books.changed
    .filter((rule) => speaks(rule, [was, is]))
    .filter(({ putBack: knowledge }) => {
      const again = evaluate(candidate, { knowledge, practice, day: asOf });
      return !isDeepStrictEqual(fingerprint(again, knowledge), after);
    })
    .map(({ id }) => id);
  if (named.length > 0) return told(changes, named);
  return told(changes, [books.changed.length > 0 ? 'several rules together' : 'figures or findings']);
}

/** Whether a changed rule may have a part: not where both its wordings are false of the quilt and of every plan. */
const speaks = ({ old, now }: ChangedRule, settled: readonly Settled[]): boolean =>
  [old, now].some((rule) =>
    settled
      .flatMap((each) => [each, ...(each.gentler === undefined ? [] : [each.gentler])])
      .some(
        ({ situation }) =>
          rule !== undefined &&
          readingsOf(rule, situation).some((facts) => evaluateRule(rule, facts) !== false),
      ),
  );

function differingReading(was: TriedCase['current'], is: TriedCase['candidate']): CaseChange['changes'] {
  const said = (each: typeof was): string => ('error' in each ? String(each.error) : 'reads');
  return said(was) === said(is) ? [] : [{ of: 'reading', from: said(was), to: said(is) }];
}

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

export function fingerprint(settled: Settled, { subjects }: Knowledge): Fingerprint {
  const result = resultOf(settled, subjects);
  const best = recommendedOption(settled)?.option;
  const listed = (words: Iterable<string>): string => [...words].sort().join(', ') || 'none';
  const round = (value: number): string => String(Math.round(value * 10) / 10);
  const between = ({ low, high }: { low: number; high: number }): string => `${round(low)} to ${round(high)}`;
  const of = (say: (option: NonNullable<typeof best>) => string): string =>
    best === undefined ? 'none' : say(best);
  return {
    standing: result.standing,
    treatment: result.treatment ?? 'none',
    plan: of(({ plan }) => plan.id),
    provisional: result.provisional ? 'yes' : 'no',
    'refused uses': listed(result.refused_uses),
    'rules cited': listed(result.cited),
    'rules undecided': listed(result.undecided),
    years: of(({ estimator }) => between(estimator.life())),
    holes: of((option) => round(newHolesInOldCloth(option))),
    hours: of(({ estimator }) => between(estimator.hours())),
    price: of(({ estimator }) => between(estimator.price())),
  };
}
