import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { GRADES } from '../../src/casebook/scales.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { explain } from '../../src/decision/explain.ts';
import { written } from '../arbitraries/cases.ts';
import { CASE_FILES, caseFrom, context, shippedCase } from '../decision/shipped.ts';
import { FULL } from '../tiers.ts';
import { quiltWith } from './quilt-with.ts';

type Use = NonNullable<QuiltCase['client']['intended_use']>;

/** Uses that a sentence offers. "A smaller quilt", a cushion or a box is another thing than this quilt. */
const OFFERED: readonly (readonly [use: Use, says: RegExp])[] = [
  ['guest_bed', /\bmended for a guest bed\b/i],
  ['display', /\bfor display\b|\bsupported and shown\b|\bshown on a wall\b/i],
  ['storage', /\bpacked for keeping\b|\bto be kept for later\b/i],
];

const answerTo = (quiltCase: QuiltCase) => explain(evaluate(quiltCase, context), context);

const wantedFor = (quiltCase: QuiltCase, use: Use): QuiltCase => ({
  ...quiltCase,
  client: { ...quiltCase.client, intended_use: use },
});

/** What a decline offers and would itself decline or refer, were the quilt brought for it. */
const offeredInVain = (quiltCase: QuiltCase, { standing, offers } = answerTo(quiltCase)): string[] => {
  if (standing !== 'decline') return [];
  const uses = OFFERED.filter(([, says]) => offers.some(({ text }) => says.test(text))).map(([use]) => use);
  return uses.filter((use) => ['decline', 'refer'].includes(answerTo(wantedFor(quiltCase, use)).standing));
};

describe('what a decline offers', () => {
  it.each([
    ['weak', true],
    ['fragile', false],
    ['failing', false],
  ])('%s cloth that was wanted for nightly use: a guest bed is offered (%s)', (grade, guest) => {
    for (const use of ['regular_bed', 'child_bed']) {
      const { standing, offers, reasons } = answerTo(quiltWith([], grade, use));
      expect(standing).toBe('decline');
      expect(reasons.map(({ rule }) => rule)).toContain('weak-cloth-not-for-daily-use');
      expect(offers.some(({ text }) => /guest bed/.test(text))).toBe(guest);
      expect(offers.length).toBeGreaterThan(0);
    }
  });

  it('for a baby’s bed: keeping it', () => {
    const { offers } = answerTo(quiltWith([], 'sound', 'infant_sleep'));
    expect(offers.map(({ rule }) => rule)).toContain('not-for-infant-sleep');
  });

  it('is not declined in its turn, for any grade and use', () => {
    const uses: readonly Use[] = [
      'guest_bed',
      'regular_bed',
      'child_bed',
      'display',
      'storage',
      'infant_sleep',
    ];
    for (const grade of GRADES)
      for (const use of uses) expect(offeredInVain(quiltWith([], grade, use)), `${grade} ${use}`).toEqual([]);
  });

  it('is not declined in its turn, for the worked cases and for random quilts', () => {
    for (const file of CASE_FILES) expect(offeredInVain(shippedCase(file)), file).toEqual([]);
    fc.assert(
      fc.property(written, (text) => {
        expect(offeredInVain(caseFrom(text))).toEqual([]);
      }),
      { numRuns: FULL ? 60 : 20 },
    );
  });

  it('would be found out if it were: fragile cloth offered for a guest bed', () => {
    const fragile = quiltWith([], 'fragile', 'regular_bed');
    const answer = answerTo(fragile);
    const planted = { rule: 'planted', text: 'It can be mended for a guest bed or for display.' };
    expect(offeredInVain(fragile, { ...answer, offers: [...answer.offers, planted] })).toEqual(['guest_bed']);
  });
});
