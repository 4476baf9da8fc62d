import { describe, expect, it } from 'vitest';
import { decide } from '../../src/decision/decide.ts';
import { printAnswer } from '../../src/documents/terminal/answer.ts';
import { context, shippedCase } from './shipped.ts';

const answerOf = async (quiltCase: ReturnType<typeof shippedCase>) =>
  (await decide(quiltCase, context)).answer;

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

  it('says which answer held when it was approved, and the reasons gained and lost since then', async () => {
    const { reasons, since_approval: since } = await answerOf(opened);
    const before = await answerOf({ ...opened, resurveys: [] });
    expect(since?.as_approved).toEqual({ standing: 'go_ahead', treatment: 'reassemble' });
    const named = (all: readonly { readonly rule: string }[] | undefined) =>
      (all ?? []).map(({ rule }) => rule).sort();
    const [then, now] = [named(before.reasons), named(reasons)];
    expect(named(since?.gained)).toEqual(now.filter((rule) => !then.includes(rule)));
    expect(named(since?.lost)).toEqual(then.filter((rule) => !now.includes(rule)));
    expect(named(since?.gained)).toContain('weak-cloth-full-support');
    expect(named(since?.lost)).toContain('sound-enough-to-put-back-together');
  });

  it('still says what changed where no work is offered any more', async () => {
    const referred = await answerOf({
      ...opened,
      resurveys: [...opened.resurveys, { on: '2026-03-21', findings: { tied_to_event: true } }],
    });
    expect(referred.treatment).toBeNull();
    expect(referred.since_approval).toMatchObject({ hours: null, price: null, needs_approval: false });
    expect(referred.since_approval?.gained.map(({ rule }) => rule)).toContain(referred.reasons[0]?.rule);
  });

  it('counts a look on the day of the approval as known then', async () => {
    const { since_approval: since } = await answerOf({
      ...opened,
      approved: { on: '2026-03-20', hours: 14 },
    });
    expect(since).toMatchObject({ changed: [], gained: [], lost: [], as_approved: { treatment: 'backing' } });
  });

  it('lets the approval stand within a tenth', async () => {
    const { estimates } = await answerOf(opened);
    const hours = (estimates?.hours.likely ?? 0) / 1.09;
    const { since_approval: since } = await answerOf({ ...opened, approved: { on: '2026-03-16', hours } });
    expect(since?.needs_approval).toBe(false);
  });

  it('tells hours to the tenth on the page, and a fade in fewer than ten years too', async () => {
    const answer = await answerOf(opened);
    const page = printAnswer(answer, opened, { width: 10_000, color: false });
    const now = Math.round((answer.estimates?.hours.likely ?? 0) * 10) / 10;
    expect(now % 1).not.toBe(0);
    expect(page).toContain(`Hours ${now} against 14 approved`);
    const fade = Math.round((answer.estimates?.light?.years_to_fade.with_uv.likely ?? 0) * 10) / 10;
    expect(fade % 1).not.toBe(0);
    expect(page).toContain(`likely about ${fade} years`);
  });

  it('says nothing where nothing was approved', async () => {
    expect((await answerOf(shippedCase('bindweed-ninepatch.yaml'))).since_approval).toBeNull();
  });
});
