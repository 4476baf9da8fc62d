import { describe, expect, it } from 'vitest';
import type { Expectation } from '../src/casebook/model.ts';

import { decide } from '../src/decision/decide.ts';
import { differences } from '../src/decision/expectation.ts';
import { evaluateRules } from '../src/decision/precedence.ts';
import { outcomeOf, plansLeft, plansRemoved } from './decision/settling.ts';
import { CASE_FILES, context, decidedOn, practice, shipped, shippedCase } from './decision/shipped.ts';

/**
 * The worked cases are the rulebook's own tests: what a practitioner would answer to each, and for which reasons,
 * was written into them before the program was asked. A right answer for a wrong reason fails.
 */
const expectationOf = (file: string): Expectation => {
  const { expect: wanted } = shippedCase(file);
  if (wanted === undefined) throw new Error(`${file} does not say what to expect`);
  return wanted;
};

describe('the worked cases', () => {
  it.each(CASE_FILES)('%s is answered as a practitioner would, and for the same reasons', async (file) => {
    const { answer } = await decidedOn(file);
    expect(differences(expectationOf(file), answer).map(({ what }) => what)).toEqual([]);
  });

  it.each(CASE_FILES)('%s names rules that exist, and enough of them to be wrong about', (file) => {
    const ids = new Set(shipped.rulebook.rules.map(({ id }) => id));
    const { standing, because = [], not_because: not = [] } = expectationOf(file);
    expect([...because, ...not].filter((rule) => !ids.has(rule))).toEqual([]);
    expect(standing).toBeDefined();
    expect(because.length + not.length).toBeGreaterThanOrEqual(2);
  });

  it.each(CASE_FILES)('%s is settled alike by the engine and by the fast evaluator', async (file) => {
    const { situation, outcome } = await decidedOn(file);
    const fast = outcomeOf(situation, undefined, evaluateRules(situation));
    expect(fast.standing).toBe(outcome.standing);
    expect(fast.treatment).toBe(outcome.treatment);
    expect(fast.standingRules).toEqual(outcome.standingRules);
    expect(plansLeft(situation, fast)).toEqual(plansLeft(situation, outcome));
    expect(plansRemoved(situation, fast)).toEqual(plansRemoved(situation, outcome));
    const votes = ({ removedBy, prefers, avoids }: (typeof outcome.planOutcomes)[number]) =>
      [removedBy, prefers, avoids].map((rules) => rules.map(({ id }) => id));
    expect(fast.planOutcomes.map(votes)).toEqual(outcome.planOutcomes.map(votes));
  });

  it('between them reach every standing and every treatment', async () => {
    const wanted = CASE_FILES.map(expectationOf);
    expect(new Set(wanted.map(({ standing }) => standing))).toEqual(
      new Set(['go_ahead', 'not_yet', 'refer', 'decline']),
    );
    expect(new Set(wanted.map(({ treatment }) => treatment ?? 'none'))).toEqual(
      new Set(['leave', 'reassemble', 'backing', 'tie', 'lines', 'none']),
    );
  });
});

/** What a practitioner would do within the treatment; common practice, no source, unless another is named. */
describe('the plan recommended', () => {
  const planOf = async (file: string) => {
    const { answer } = await decidedOn(file);
    if (answer.plan === null) throw new Error(`${file} has no plan`);
    return answer.plan;
  };

  it('for hard use runs lines along every seam, both ways, by machine, and keeps a filling', async () => {
    expect(await planOf('term-time-squares.yaml')).toMatchObject({
      joining: 'lines',
      pattern: 'every seam',
      directions: 'both',
      gap_after: '8 in',
      sewn_by: 'machine',
      batting: 'keep',
    });
  });

  it('ties wool no farther apart than six inches, in new filling', async () => {
    // Ties 3 to 6 in apart: American Patchwork and Quilting 2019-08.
    expect(await planOf('winter-suiting-comfort.yaml')).toMatchObject({
      joining: 'ties',
      pattern: 'every crossing',
      gap_after: '5 in',
      batting: 'replace',
    });
  });

  it('puts a spent back and crumbling filling out, and tacks by hand', async () => {
    expect(await planOf('breakwater-squares.yaml')).toMatchObject({
      joining: 'tacks',
      batting: 'none',
      sewn_by: 'hand',
      actions: { overlay: { units: 10 }, patch_over: { units: 8, families: ['A'] } },
    });
  });

  it('quilts by hand again what was quilted by hand and is restored', async () => {
    expect(await planOf('weathercock-on-point.yaml')).toMatchObject({ joining: 'lines', sewn_by: 'hand' });
  });

  it('adds nothing where thread gave out and cloth did not', async () => {
    expect(await planOf('bindweed-ninepatch.yaml')).toMatchObject({
      joining: 'none',
      backing: 'keep',
      batting: 'none',
      opens: false,
      sewn_by: 'hand',
    });
  });

  it('holds even without filling both ways where it is slept under every night', async () => {
    expect(await planOf('loft-room-oblongs.yaml')).toMatchObject({ joining: 'lines', directions: 'both' });
  });
});

describe('a later look', () => {
  it('changes the answer where opening the quilt showed worse', async () => {
    const whole = shippedCase('orchard-ladder.yaml');
    const { answer: before } = await decide({ ...whole, resurveys: [] }, context);
    expect(before.treatment).toBe('reassemble');
    expect(before.reasons.map(({ rule }) => rule)).toContain('sound-enough-to-put-back-together');
    expect((await decidedOn('orchard-ladder.yaml')).answer.treatment).toBe('backing');
  });
});

describe('what a count is of', () => {
  it('is patches where a quilt has no blocks: by survey cells the same loss would pass for a light one', async () => {
    const { situation } = await decidedOn('honeycomb-remnant.yaml');
    // (1270 lost + 70 missing) of 2380 patches.
    expect(situation.facts['finding.loss']).toBeCloseTo(1340 / 2380, 6);
    expect(situation.quilt.counting).toBe('patches');
  });
});

describe('a wish to have it washed', () => {
  const advice = async (washing: 'museum' | 'studio'): Promise<string[]> => {
    const { answer } = await decide(shippedCase('tea-stained-chain.yaml'), {
      ...context,
      practice: { ...practice, washing },
    });
    return [...answer.conditions, ...answer.cautions].map(({ rule }) => rule);
  };

  it('is refused by museum practice, whatever the dyes do', async () => {
    expect(await advice('museum')).toContain('not-washed-by-museum-practice');
  });

  it('is refused by studio practice because a colour moves', async () => {
    const said = await advice('studio');
    expect(said).toContain('not-washed-even-by-studio-practice');
    expect(said).not.toContain('washed-by-studio-practice');
    expect(said).not.toContain('not-washed-by-museum-practice');
  });
});
