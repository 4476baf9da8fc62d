import { describe, expect, it } from 'vitest';
import { decide } from '../../src/decision/decide.ts';
import { AS_OF, practice, shipped, shippedCase } from './shipped.ts';

const answerOf = async (quiltCase: ReturnType<typeof shippedCase>) =>
  (await decide(quiltCase, shipped, practice, AS_OF)).answer;

describe('an answer after the quilt was opened', () => {
  const opened = shippedCase('orchard-ladder.yaml');

  it('asks for new approval where hours rose by more than a tenth, and says what was found', async () => {
    const { since_approval: since } = await answerOf(opened);
    expect(since?.needs_approval).toBe(true);
    expect(since?.hours?.rise).toBeGreaterThan(0.1);
    expect(since?.changed.map(({ finding }) => finding)).toEqual(
      expect.arrayContaining(['batting_migrated', 'opened']),
    );
  });

  it('lets the approval stand within a tenth', async () => {
    const { estimates } = await answerOf(opened);
    const hours = (estimates?.hours.likely ?? 0) / 1.09;
    const { since_approval: since } = await answerOf({ ...opened, approved: { on: '2026-03-16', hours } });
    expect(since?.needs_approval).toBe(false);
  });

  it('says nothing where nothing was approved', async () => {
    expect((await answerOf(shippedCase('bindweed-ninepatch.yaml'))).since_approval).toBeNull();
  });
});
