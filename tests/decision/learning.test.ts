import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Situation } from '../../src/decision/situation.ts';
import { type Fact, isSpan } from '../../src/findings/fact.ts';
import { evaluateRule } from '../../src/rulebook/evaluate.ts';
import type { Truth } from '../../src/rulebook/kleene.ts';
import type { Rule } from '../../src/rulebook/model.ts';
import { FINDINGS, type Written, written } from '../arbitraries/cases.ts';
import { RULES, situationOf } from './settling.ts';
import { caseFrom } from './shipped.ts';

/** "is unknown" is true of what nobody knows and false once somebody does: such rules are meant to turn. */
const asksWhetherKnown = ({ tests }: Rule): boolean =>
  tests.some(({ comparison }) => comparison === 'is known' || comparison === 'is unknown');

/** What looks at plans, and what says how much has been looked at, is not of the quilt as found. */
const NOT_OF_THE_QUILT = ['finding.unseen_share', 'finding.looked_over'];

/** Rules about the quilt as it was found. What is planned depends on what is done, which learning may change. */
const aboutTheFound: readonly Rule[] = RULES.filter(
  (rule) =>
    !rule.perPlan &&
    !asksWhetherKnown(rule) &&
    rule.tests.every(({ subject, key }) => subject === 'finding' && !NOT_OF_THE_QUILT.includes(key)),
);

const survey = (text: Written): Written => text.survey as Written;
const noted = (text: Written): Written => (survey(text).findings ?? {}) as Written;

/** One finding that the case does not state yet. */
const learned: fc.Arbitrary<readonly [string, unknown]> = fc
  .constantFrom(...Object.keys(FINDINGS))
  .chain((id) => (FINDINGS[id] ?? fc.constant('no')).map((value) => [id, value] as const));

const judged = ({ facts, asked }: Situation, rule: Rule): Truth =>
  evaluateRule(rule, rule.effects.refuseUse === undefined ? facts : asked);

/** Whether what was known still holds: a value stays, bounds only close in. */
const stillHolds = (before: Fact, after: Fact): boolean => {
  if (before === undefined) return true;
  if (!isSpan(before)) return Object.is(before, after) || nearlySame(before, after);
  const { lo, hi } = isSpan(after) ? after : { lo: Number(after), hi: Number(after) };
  return lo >= before.lo - 1e-9 && hi <= before.hi + 1e-9;
};
const nearlySame = (a: Fact, b: Fact): boolean =>
  typeof a === 'number' && typeof b === 'number' && Math.abs(a - b) < 1e-9;

const withFinding = (text: Written, id: string, value: unknown): Written => ({
  ...text,
  survey: { ...survey(text), findings: { ...noted(text), [id]: value } },
});

/** The same quilt looked at more closely: every unit not seen turns out sound or lost, every missing line is noted. */
const seenAll = (text: Written, mark: string): Written => {
  const { units } = survey(text);
  return typeof units !== 'string'
    ? text
    : { ...text, survey: { ...survey(text), units: units.replaceAll('?', mark) } };
};

const graded = (text: Written, grade: string): Written => {
  const families = (survey(text).families ?? {}) as Record<string, Written>;
  const known = Object.entries(families).map(([letter, family]) => [letter, { fragility: grade, ...family }]);
  return { ...text, survey: { ...survey(text), families: Object.fromEntries(known) } };
};

const foundFacts = ({ facts }: Situation): [string, Fact][] =>
  Object.entries(facts).filter(([key]) => key.startsWith('finding.') && !NOT_OF_THE_QUILT.includes(key));

/** It names what is surely open, in words: as more is found open the name grows, and only "none" would take it back. */
const GROWS = 'finding.open_damage';

const holds = (before: Situation, after: Situation): void => {
  const broken = foundFacts(before).filter(([key, fact]) =>
    key === GROWS && fact !== 'none'
      ? fact !== undefined && [undefined, 'none'].includes(after.facts[key] as string)
      : !stillHolds(fact, after.facts[key]),
  );
  expect(broken.map(([key, fact]) => [key, fact, after.facts[key]])).toEqual([]);
  const turned = aboutTheFound.filter((rule) => {
    const was = judged(before, rule);
    return was !== undefined && judged(after, rule) !== was;
  });
  expect(turned.map(({ id }) => id)).toEqual([]);
};

describe('learning more of a quilt', () => {
  it('there are rules enough for this to say something', () => {
    expect(aboutTheFound.length).toBeGreaterThan(40);
  });

  it('one finding: no rule about what was found that was certain turns round', () => {
    fc.assert(
      fc.property(written, learned, (text, [id, value]) => {
        fc.pre(noted(text)[id] === undefined);
        // Where no fabric is silk it follows that none shatters: noting otherwise contradicts, and is not learning.
        fc.pre(
          id !== 'shattering_silk' || situationOf(caseFrom(text)).facts['finding.silk_present'] !== false,
        );
        holds(situationOf(caseFrom(text)), situationOf(caseFrom(withFinding(text, id, value))));
      }),
      { numRuns: 40 },
    );
  });

  it('units nobody had seen: what was certain stays, and bounds close in', () => {
    fc.assert(
      fc.property(written, fc.constantFrom('.', 'x', 'h', 's'), (text, mark) => {
        fc.pre(seenAll(text, mark) !== text);
        holds(situationOf(caseFrom(text)), situationOf(caseFrom(seenAll(text, mark))));
      }),
      { numRuns: 30 },
    );
  });

  it('the grade of a fabric: what was certain stays, and bounds close in', () => {
    fc.assert(
      fc.property(written, fc.constantFrom('sound', 'worn', 'weak', 'fragile', 'failing'), (text, grade) => {
        holds(situationOf(caseFrom(text)), situationOf(caseFrom(graded(text, grade))));
      }),
      { numRuns: 30 },
    );
  });
});
