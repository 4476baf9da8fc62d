import { describe, expect, it } from 'vitest';
import { overridesOf } from '../../src/decision/choice.ts';
import { decidedOn } from './shipped.ts';

const because = 'She wants it on her wall this winter.';

describe('choosing otherwise than recommended', () => {
  it('names the rules the choice goes against', async () => {
    const result = overridesOf(
      { treatment: 'tie', because, riskNote: undefined },
      await decidedOn('bindweed-ninepatch.yaml'),
    );
    expect(result).toHaveProperty('overrides');
    if ('overrides' in result) expect(result.overrides.map(({ id }) => id)).toContain('ties-need-batting');
  });

  it('wants a reason', async () => {
    const result = overridesOf(
      { treatment: 'tie', because: undefined, riskNote: undefined },
      await decidedOn('bindweed-ninepatch.yaml'),
    );
    expect('problems' in result && result.problems.map(({ code }) => code)).toEqual(['reason-wanted']);
  });

  it('never sets a stop aside, whatever the risk note says', async () => {
    const stopped = await decidedOn('cellar-baskets.yaml');
    expect(stopped.outcome.standingRules[0]?.group).toBe('stop');
    const result = overridesOf({ treatment: 'tie', because, riskNote: 'All owners know.' }, stopped);
    expect('problems' in result && result.problems.map(({ code }) => code)).toContain('stop-stands');
  });

  it('nor where the rules left no plan, and the answer is to decline for that', async () => {
    const stopped = await decidedOn('cellar-baskets.yaml');
    const outcome = {
      ...stopped.outcome,
      standing: 'decline' as const,
      nothingLeft: true,
      standingRules: [],
    };
    const result = overridesOf(
      { treatment: 'reassemble', because, riskNote: 'All owners know.' },
      { ...stopped, outcome },
    );
    expect('problems' in result && result.problems.map(({ code }) => code)).toEqual(['stop-stands']);
  });

  it('wants a risk note against a referral', async () => {
    const referred = await decidedOn('album-of-1874.yaml');
    expect(referred.answer.standing).toBe('refer');
    const without = overridesOf({ treatment: 'reassemble', because, riskNote: undefined }, referred);
    expect('problems' in without && without.problems.map(({ code }) => code)).toEqual(['risk-note-wanted']);
    expect(
      overridesOf({ treatment: 'reassemble', because, riskNote: 'Its history may be lost.' }, referred),
    ).toHaveProperty('overrides');
  });
});
