import { isDeepStrictEqual } from 'node:util';
import type { QuiltCase, RecordedDecision } from '../casebook/model.ts';
import type { StudioPractice } from '../decision/context.ts';
import { type RepairOutcome, repairOutcome } from '../experience/due.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { AlignedRulebooks, ChangedRule } from './align-rulebooks.ts';
import {
  ASPECTS,
  type Aspect,
  type Fingerprint,
  fingerprint,
  isUnaffected,
  type Prepared,
  prepareCached,
} from './prepared.ts';

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
  const was = prepareCached([], current, { knowledge: books.before, practice, day: asOf });
  const is = prepareCached([was], candidate, { knowledge: books.after, practice, day: asOf });
  const speaking = books.changed.filter((rule) => !isUnaffected(rule, is));
  // Where nothing else differs, and every changed rule says the same in both wordings, both books say the same.
  if (is === was && speaking.length === 0) return undefined;
  const before = fingerprint(was.situation, books.before, was.truths);
  const after = fingerprint(is.situation, books.after, is.truths);
  const changes = ASPECTS.filter((of) => before[of] !== after[of]).map((of) => ({
    of,
    from: before[of],
    to: after[of],
  }));
  if (changes.length === 0) return undefined;
  const comesOutAs = (knowledge: Knowledge): Fingerprint => {
    const again: Prepared = prepareCached([is, was], candidate, { knowledge, practice, day: asOf });
    return fingerprint(again.situation, knowledge, again.truths);
  };
  // With one rule put back that alone says something else, the candidate is the current book in all but name.
  const [only, ...others] = speaking;
  if (is === was && only !== undefined && others.length === 0) return told(changes, [only.id]);
  return told(changes, causes(books.changed, speaking, comesOutAs, after));
}

/** Each changed rule is put back alone into the candidate: where the case then comes out otherwise, it had a part. */
function causes(
  changed: readonly ChangedRule[],
  speaking: readonly ChangedRule[],
  comesOutAs: (knowledge: Knowledge) => Fingerprint,
  after: Fingerprint,
): string[] {
  const named = speaking
    .filter(({ putBack }) => !isDeepStrictEqual(comesOutAs(putBack), after))
    .map(({ id }) => id);
  return named.length > 0 ? named : changed.length > 0 ? ['several rules together'] : ['figures or findings'];
}

function differingReading(was: TriedCase['current'], is: TriedCase['candidate']): CaseChange['changes'] {
  const said = (each: typeof was): string => ('error' in each ? String(each.error) : 'reads');
  return said(was) === said(is) ? [] : [{ of: 'reading', from: said(was), to: said(is) }];
}
