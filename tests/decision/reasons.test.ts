import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Answer, type Reason, sameRecommendation } from '../../src/decision/answer-model.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { explain } from '../../src/decision/explain.ts';
import type { Settled } from '../../src/decision/outcome.ts';
import { mainReasons } from '../../src/decision/reasons.ts';
import type { Facts } from '../../src/findings/fact.ts';
import { written } from '../arbitraries/cases.ts';
import { outcomeOf, RULES } from './settling.ts';
import { CASE_FILES, caseFrom, context, decidedOn } from './shipped.ts';

/**
 * The law of reasons: those given first are for this answer. Each would change it if it fell, sets its standing, or is
 * shown against another treatment; each speaks of parts the quilt has; and where no rule told the recommendation from
 * the next best treatment, the step that did is told.
 */
const violations = (answer: Answer, settled: Settled): string[] => [
  ...mainReasons(answer.reasons).flatMap((reason) => [
    ...(setsApart(reason, answer, settled) ? [] : [`${reason.rule} sets this answer apart from nothing`]),
    ...absentParts(reason.because, settled.situation.facts).map(
      (part) => `${reason.rule} speaks of ${part}, which the quilt has not`,
    ),
  ]),
  ...answer.rather_than
    .filter(({ sentence }) => sentence === 'Nothing that was found speaks for it.')
    .map(({ treatment }) => `nothing is said against ${treatment}`),
  ...(answer.treatment !== null && !isToldApart(answer) ? ['nothing says what settled it'] : []),
];

const ALWAYS: readonly string[] = ['sets the standing', 'refuses a use', 'asks for more'];

function setsApart({ rule, effect }: Reason, answer: Answer, { situation, outcome }: Settled): boolean {
  if (ALWAYS.includes(effect)) return true;
  if (answer.rather_than.some(({ reasons }) => reasons.some((reason) => reason.rule === rule))) return true;
  const without = RULES.filter(({ id }) => id !== rule);
  return !sameRecommendation(outcome, outcomeOf(situation, without));
}

/** Every other treatment has a rule against it, or a step is named that settled it. */
const isToldApart = ({ rather_than: others, settled_by: settled }: Answer): boolean =>
  settled !== null || others.every(({ reasons }) => reasons.length > 0) || others.length === 0;

/** What a sentence may not speak of where it is not there, unless it says so itself. */
const PARTS: readonly (readonly [string, string, RegExp, RegExp])[] = [
  ['finding.batting_kind', 'batting', /\b(batting|filling)\b/i, /\bno (batting|filling)\b|without batting/i],
  ['finding.backing_kind', 'a backing', /\b(backing|its back)\b/i, /\bno back\b|new back(ing)?\b/i],
  ['finding.joining_kind', 'old ties or lines', /\bold (ties|lines|joining)\b|still held by/i, /\bno old\b/i],
];

const absentParts = (sentence: string, facts: Facts): string[] => [
  ...PARTS.flatMap(([key, part, names, excuses]) =>
    facts[key] === 'none' && names.test(sentence) && !excuses.test(sentence) ? [part] : [],
  ),
  ...(/\b0 %/.test(sentence) ? ['a share of nothing'] : []),
];

const explained = (settled: Settled): readonly [Answer, Settled] => [explain(settled, context), settled];

describe('the reasons given first', () => {
  it.each(CASE_FILES)('are for the answer to %s, and what settled it is told', async (file) => {
    const decision = await decidedOn(file);
    expect(violations(decision.answer, decision)).toEqual([]);
  });

  it('are for the answer to any case', () => {
    fc.assert(
      fc.property(written, (text) => {
        const [answer, settled] = explained(evaluate(caseFrom(text), context));
        expect(violations(answer, settled)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('would be caught if a reason of the plan alone were given as one for the answer', async () => {
    const found = await Promise.all(
      CASE_FILES.map(async (file) => {
        const decision = await decidedOn(file);
        const { answer } = decision;
        const reasons = answer.reasons.map((reason) => ({ ...reason, for_answer: !reason.for_answer }));
        return violations({ ...answer, reasons }, decision);
      }),
    );
    expect(found.flat().filter((said) => said.endsWith('sets this answer apart from nothing'))).not.toEqual(
      [],
    );
  });

  it('would be caught if they spoke of what is not there', () => {
    const bare: Facts = { 'finding.batting_kind': 'none', 'finding.backing_kind': 'none' };
    expect(absentParts('Its back and filling still do their work.', bare)).toEqual(['batting', 'a backing']);
    expect(absentParts('There is no batting to hold.', bare)).toEqual([]);
    expect(absentParts('Lost cloth makes up 0 % of the top.', bare)).toEqual(['a share of nothing']);
  });

  it('would be caught if the step that settled it were left out', async () => {
    const decision = await decidedOn('trunk-find.yaml');
    const { answer } = decision;
    expect(answer.settled_by).toMatchObject({ step: 'work' });
    expect(violations({ ...answer, settled_by: null }, decision)).toEqual(['nothing says what settled it']);
  });
});
