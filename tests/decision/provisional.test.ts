import { beforeAll, describe, expect, it } from 'vitest';
import { readCase } from '../../src/casebook/read-case.ts';
import { sameRecommendation } from '../../src/decision/answer-model.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { type Outcome, settle } from '../../src/decision/outcome.ts';
import { isOpen, rulesThatCouldChange, undecidedRules } from '../../src/decision/provisional.ts';
import type { Situation } from '../../src/decision/situation.ts';
import type { Ballot } from '../../src/decision/votes.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { inForce } from '../../src/rulebook/assemble.ts';
import type { Rule, Rulebook } from '../../src/rulebook/model.ts';
import { openStudio, type Studio } from '../../src/store/studio.ts';
import { FULL } from '../tiers.ts';
import { generatedCase, textOf } from '../tools/generated-case.ts';

const DAY = '2026-12-01';
const CASES = FULL ? 60 : 20;
let studio: Studio;
beforeAll(async () => {
  studio = await openStudio({ rules: 'rules' });
});

/** What is open by its definition: every undecided rule is read as true, and everything is settled again. */
function openByDefinition(situation: Situation, ballot: Ballot, outcome: Outcome): Rule[] {
  const undecided = undecidedRules(ballot);
  const alters = (rules: readonly Rule[]): boolean =>
    !sameRecommendation(
      outcome,
      settle(situation, ballot, (rule) => rules.includes(rule)),
    );
  const alone = undecided.filter((rule) => alters([rule]));
  if (alone.length > 0 || undecided.length < 2) return alone;
  return alters(undecided) ? undecided : [];
}

/** Rulebooks in which what is undecided comes to bear more often: without rules that settle most cases. */
const BOOKS: Readonly<Record<string, (book: Rulebook) => Rulebook>> = {
  'as shipped': (book) => book,
  'without rules that set a standing': (book) => ({
    ...book,
    rules: book.rules.filter(({ effects }) => effects.stand === undefined),
  }),
  'without rules that stop or refer': (book) => ({
    ...book,
    rules: book.rules.filter(({ group }) => group !== 'stop' && group !== 'refer'),
  }),
};

describe('undecided rules that would change the answer', () => {
  it.each(Object.keys(BOOKS))(
    'are those that settling again for each of them finds, in the same order: %s',
    (name) => {
      const { knowledge, practice } = studio;
      const rulebook = (BOOKS[name] ?? ((book) => book))(inForce(knowledge.rulebook, DAY));
      const readers = findingReader(knowledge.vocabulary);
      const found = { none: 0, some: 0 };
      for (let number = 1; number <= CASES; number += 1) {
        const draft = generatedCase(knowledge.vocabulary, 11, number);
        const { case: quiltCase } = readCase('case', textOf(draft), readers);
        if (quiltCase === undefined) throw new Error(`case ${number} does not read`);
        const context = { knowledge: { ...knowledge, rulebook }, practice, day: DAY };
        const { situation, ballot, outcome } = evaluate(quiltCase, context);
        const open = rulesThatCouldChange(situation, ballot, outcome).map(({ id }) => id);
        expect(open, `case ${number}`).toEqual(
          openByDefinition(situation, ballot, outcome).map(({ id }) => id),
        );
        expect(isOpen(situation, ballot, outcome)).toBe(open.length > 0);
        found[open.length > 0 ? 'some' : 'none'] += 1;
      }
      // Cases of both kinds, or the comparison says little.
      expect(found.none).toBeGreaterThan(0);
      expect(found.some).toBeGreaterThan(0);
    },
    120_000,
  );
});
