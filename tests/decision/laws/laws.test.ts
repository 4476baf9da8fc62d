import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DecisionContext } from '../../../src/decision/context.ts';
import { plausible } from '../../arbitraries/quilts.ts';
import { caseFrom, context, knowledgeWith } from '../shipped.ts';
import { LAWS } from './laws.ts';
import type { Pair } from './pairs.ts';
import { violations } from './seen.ts';

/** Short, one pair of each quilt is tried; at full length some of each. */
const RUNS = 60;
const PAIRS = 1;

/** Rules or figures in which one text stands for another: the planted fault. */
const planted = (name: string, change: (text: string) => string): DecisionContext => ({
  ...context,
  knowledge: knowledgeWith((text, file) => (file === name ? change(text) : text)),
});

const andRule = (when: string, then: string) =>
  planted(
    'stages/structure.yaml',
    (text) =>
      `${text}\n- rule: planted\n  title: Planted\n  when: { all: [${when}] }\n  then: { ${then} }\n  because: Planted.\n  evidence: assumption\n  source: a test\n  since: 2026-11-27\n`,
  );

/** A fault for each law that somebody might write into the rules in good faith. */
const FAULTS: Readonly<Record<number, DecisionContext>> = {
  // "Weak cloth is quilted closer."
  2: andRule(
    '{ finding: worst_fragility, at least: weak }, { finding: intended_use, is not: storage }',
    'prefer: { plan: treatment, is: lines }, call for: { plan: treatment, is: lines }',
  ),
  // "Where nobody looked at the back, a new one goes on to be safe."
  3: andRule(
    '{ finding: backing_fragility, is unknown: yes }',
    'call for: { plan: backing, one of: [add, replace] }',
  ),
  // "What was not seen is sound."
  4: planted('figures.yaml', (text) =>
    text.replace(
      'units_lost: { low: 0, likely: 8 %, high: 40 %',
      'units_lost: { low: 0, likely: 0 %, high: 0 %',
    ),
  ),
  // "What shall last for ever is not touched."
  5: andRule('{ finding: wanted_years, at least: 20 }', 'prefer: { plan: treatment, is: leave }'),
  // "A guest sees it, so it is made up anew."
  6: andRule('{ finding: intended_use, is: guest_bed }', 'call for: { plan: opens, is: yes }'),
  // "Two weak fabrics are worse than one."
  7: andRule('{ finding: weak_families, at least: 2 }', 'call for: { plan: opens, is: yes }'),
};

/** A few of them, from one drawn at random on. */
const from = (pairs: readonly Pair[], at: number): readonly Pair[] =>
  [...pairs, ...pairs].slice(at % Math.max(1, pairs.length)).slice(0, Math.min(PAIRS, pairs.length));

const tried = fc.record({ quilt: plausible.map(caseFrom), at: fc.nat() });

describe.each(Object.entries(LAWS))('law %s', (number, law) => {
  it(`${law.title}, over quilts drawn at random`, () => {
    let count = 0;
    fc.assert(
      fc.property(tried, ({ quilt, at }) => {
        const { tried: some, found } = violations(law, quilt, context, (pairs) => from(pairs, at));
        count += some;
        expect(found).toEqual([]);
      }),
      { numRuns: RUNS },
    );
    expect(count).toBeGreaterThan(RUNS / 2);
  });

  it('would be found broken by a fault in the rules', () => {
    const broken = FAULTS[Number(number)] ?? context;
    const quilts = fc.sample(tried, { numRuns: 40, seed: 5 });
    const seen = quilts.find(
      ({ quilt }) => violations(law, quilt, broken, (pairs) => pairs.slice(0, 12)).found.length > 0,
    );
    expect(seen).toBeDefined();
  });
});
