import { isDeepStrictEqual } from 'node:util';
import { isFigureSet } from '../figures/model.ts';
import { memoizeByPair } from '../quantities/memo.ts';
import { inForce } from '../rulebook/assemble.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rule, Rulebook } from '../rulebook/model.ts';

/** Two rulebooks on one day. What they have in common is one object in both, so that it need be worked out once. */
export interface AlignedRulebooks {
  readonly before: Knowledge;
  readonly after: Knowledge;
  readonly changed: readonly ChangedRule[];
}

/** A rule that one book has otherwise than the other; where a book lacks it, undefined. */
export interface ChangedRule {
  readonly id: string;
  readonly old: Rule | undefined;
  readonly now: Rule | undefined;
  /** The candidate book with this rule alone as it was. */
  readonly putBack: Knowledge;
}

export function alignRulebooks(current: Knowledge, candidate: Knowledge, asOf: string): AlignedRulebooks {
  const before = { ...current, rulebook: inForce(current.rulebook, asOf) };
  const shared = sharing(current, { ...candidate, rulebook: inForce(candidate.rulebook, asOf) });
  const byId = new Map(before.rulebook.rules.map((rule) => [rule.id, rule]));
  const rules = shared.rulebook.rules.map((rule) => {
    const old = byId.get(rule.id);
    return old !== undefined && sameRule(old, rule) ? old : rule;
  });
  const after = { ...shared, rulebook: { ...shared.rulebook, rules } };
  const changed = changedRules(before.rulebook.rules, rules).map((id): ChangedRule => {
    const old = byId.get(id);
    const now = rules.find((rule) => rule.id === id);
    return { id, old, now, putBack: { ...after, rulebook: putBack(after.rulebook, old, now) } };
  });
  return { before, after, changed };
}

/** Rules that differ between two books, by name: changed, added or taken away. */
export function changedRules(current: readonly Rule[], candidate: readonly Rule[]): string[] {
  const [was, is] = [current, candidate].map((rules) => new Map(rules.map((rule) => [rule.id, rule])));
  const ids = [...new Set([...current, ...candidate].map(({ id }) => id))].sort();
  return ids.filter((id) => !sameRule(was?.get(id), is?.get(id)));
}

const sameRule = (a: Rule | undefined, b: Rule | undefined): boolean =>
  a === b || isDeepStrictEqual(bare(a), bare(b));

/** Whether two wordings of a rule say the same of the same plans, once they are true. */
export const differInConditionAlone = memoizeByPair((a: Rule, b: Rule): boolean => {
  const rest = (rule: Rule): unknown =>
    bare({ ...rule, when: { all: [] }, tests: [], since: '', until: undefined });
  return isDeepStrictEqual(rest(a), rest(b));
});

/** A rule without what does not bear on an answer: where it stands in the file, and its history. */
const bare = (rule: Rule | undefined): unknown =>
  rule === undefined
    ? undefined
    : JSON.parse(
        JSON.stringify({ ...rule, yieldsAt: null, was: null, earlier: null }, (key, value: unknown) =>
          key === 'place' ? null : value,
        ),
      );

/** The candidate with the current vocabulary and figures in place of its own where they say the same. */
function sharing(current: Knowledge, candidate: Knowledge): Knowledge {
  const [a, b] = [current.figures, candidate.figures];
  const sameFigures = isFigureSet(a) && isFigureSet(b) && isDeepStrictEqual(a.list, b.list);
  const sameWords = isDeepStrictEqual(current.vocabulary, candidate.vocabulary);
  return {
    ...candidate,
    ...(sameFigures ? { figures: a } : {}),
    ...(sameWords ? { vocabulary: current.vocabulary, subjects: current.subjects } : {}),
  };
}

/** In the place of the new wording where there is one; last where there is none: the order of rules means nothing. */
function putBack(book: Rulebook, old: Rule | undefined, now: Rule | undefined): Rulebook {
  const kept = old === undefined ? [] : [old];
  if (now === undefined) return { ...book, rules: [...book.rules, ...kept] };
  return { ...book, rules: book.rules.flatMap((rule) => (rule === now ? kept : [rule])) };
}
