import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decide } from '../../src/decision/decide.ts';
import { certainDeclines } from '../../src/decision/provisional.ts';
import { validateAnswers } from '../../src/interview/validate-answers.ts';
import { context } from './shipped.ts';

const SIZE = { size: { width: '60 in', height: '60 in' } };

const caseOf = (findings: Record<string, string>, client: Record<string, string> = {}) => {
  const { case: quiltCase } = validateAnswers(
    { client, quilt: SIZE, survey: { seen: 'in hand', findings } },
    context.knowledge.vocabulary,
  );
  if (quiltCase === undefined) throw new Error('the case does not read');
  return quiltCase;
};

const certain = (...given: Parameters<typeof caseOf>) =>
  certainDeclines(caseOf(...given), context, true).map(({ id }) => id);

describe('a decline that is certain before a plan is made', () => {
  test('nothing known declines nothing', () => expect(certain({})).toEqual([]));

  test('sewage declines, whatever else is still to come', () => {
    expect(certain({ sewage_or_fuel: 'yes' })).toContain('sewage-or-fuel-is-declined');
    expect(certain({ sewage_or_fuel: 'no' })).toEqual([]);
  });

  test('where it says decline, the whole decision does too', { timeout: 60_000 }, async () => {
    const yesNo = fc.constantFrom('yes', 'no', 'unknown');
    await fc.assert(
      fc.asyncProperty(
        fc.record({
          sewage_or_fuel: yesNo,
          rodent_waste: yesNo,
          tied_to_event: yesNo,
          shattering_silk: fc.constantFrom('0 %', '40 %', 'unknown'),
        }),
        fc.constantFrom('storage', 'regular_bed', 'infant_sleep'),
        async (findings, use) => {
          const quiltCase = caseOf(findings, { intended_use: use });
          const declines = certainDeclines(quiltCase, context, true);
          if (declines.length === 0) return;
          const { answer } = await decide(quiltCase, context);
          expect(answer.standing).toBe('decline');
        },
      ),
      { numRuns: 12, seed: 7 },
    );
  });
});
