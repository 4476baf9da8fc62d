import { describe, expect, it } from 'vitest';
import type { QuiltCase, RecordedDecision } from '../../src/casebook/model.ts';
import { TREATMENTS } from '../../src/casebook/scales.ts';
import { agreedOption, lastChosen, rulesAgainst } from '../../src/decision/choice.ts';
import { decide } from '../../src/decision/decide.ts';
import { evaluate } from '../../src/decision/evaluate.ts';
import { traceOf } from '../../src/decision/precedence.ts';
import { planDone } from '../../src/experience/life-evidence.ts';
import { AS_OF, CASE_FILES, context, shipped, shippedCase } from './shipped.ts';

const chose = (chosen: RecordedDecision['chosen'], on = AS_OF, ...overrides: string[]): RecordedDecision => ({
  on,
  kind: 'client',
  ...(chosen === undefined ? {} : { chosen }),
  ...(overrides.length === 0 ? {} : { overrides }),
});
const NIGHTLY = 'weak-cloth-not-for-daily-use';
const withDecisions = (file: string, ...decisions: RecordedDecision[]): QuiltCase => ({
  ...shippedCase(file),
  decisions,
});
const decided = (quiltCase: QuiltCase) => decide(quiltCase, context);

// "guest-room-percale" is advised to be tied; "bunk-bed-scraps" is declined.
describe('what was chosen', () => {
  it('is the last choice by the day of the answer', () => {
    const quiltCase = withDecisions(
      'guest-room-percale.yaml',
      chose('lines', '2026-03-01'),
      chose('backing', '2026-04-01'),
      chose('leave', '2026-12-24'),
    );
    expect(lastChosen(quiltCase, AS_OF)?.chosen).toBe('backing');
    expect(lastChosen(quiltCase, '2026-03-31')?.chosen).toBe('lines');
    expect(lastChosen(quiltCase, '2026-02-01')).toBeUndefined();
    expect(lastChosen(quiltCase, '2026-12-24')?.chosen).toBe('leave');
  });

  it.each(['lines', 'backing', 'leave'] as const)(
    '%s: its own plan, figures and conditions are told',
    async (way) => {
      const plain = await decided(shippedCase('guest-room-percale.yaml'));
      const overrides = rulesAgainst(way, plain).map(({ id }) => id);
      const decision = await decided(
        withDecisions('guest-room-percale.yaml', chose(way, AS_OF, ...overrides)),
      );
      const { answer } = decision;
      expect(answer.treatment).toBe('tie');
      const shown = answer.options.find(({ treatment }) => treatment === way);
      expect(answer.chosen).toMatchObject({ treatment: way, plan: shown?.plan, estimates: shown?.estimates });
      expect(agreedOption(decision)?.option.plan.treatment).toBe(way);
      // Each sentence stands by a rule that holds of that plan.
      const said = [...(answer.chosen?.conditions ?? []), ...(answer.chosen?.cautions ?? [])];
      const index = agreedOption(decision)?.index;
      for (const { rule: id } of said) {
        const rule = shipped.rulebook.rules.find((each) => each.id === id);
        if (rule === undefined) throw new Error(`no rule ${id}`);
        expect(traceOf(rule, decision.situation, index).truth, id).toBe(true);
      }
    },
  );

  it('brings its own conditions: how ties are made is said of ties, and of nothing else', async () => {
    const about = (texts: readonly { readonly text: string }[] | undefined) =>
      (texts ?? []).some(({ text }) => text.startsWith('Each tie goes through'));
    const tied = (await decided(withDecisions('bunk-bed-scraps.yaml', chose('tie', AS_OF, NIGHTLY)))).answer;
    expect(tied.standing).toBe('decline');
    expect(about(tied.conditions)).toBe(false);
    expect(about(tied.chosen?.conditions)).toBe(true);
    const backed = (await decided(withDecisions('bunk-bed-scraps.yaml', chose('backing', AS_OF, NIGHTLY))))
      .answer;
    expect(about(backed.chosen?.conditions)).toBe(false);
  });

  it.each([
    ['nobody has chosen', []],
    ['the advice was followed', [chose('tie')]],
    ['the choice was taken back', [chose('lines', '2026-03-01'), chose('tie', '2026-04-01')]],
    [
      'the advice was followed since, whatever it was then',
      [chose('lines', '2026-03-01'), { on: '2026-04-01', kind: 'recommended', chosen: 'backing' } as const],
    ],
    [
      'the advice was recorded since',
      [chose('lines', '2026-03-01'), { on: '2026-04-01', kind: 'recommended' } as const],
    ],
    ['it was chosen after the day of the answer', [chose('lines', '2026-12-24')]],
  ])('is nothing beside the advice where %s', async (_, decisions) => {
    const decision = await decided(withDecisions('guest-room-percale.yaml', ...decisions));
    expect(decision.answer.chosen).toBeNull();
    expect(agreedOption(decision)?.index).toBe(decision.outcome.best);
  });

  describe('and what it was not weighed against', () => {
    const named = (said: readonly { readonly rule: string }[] | undefined) => said?.map(({ rule }) => rule);

    it('stands against what the cloth cannot bear only where that was set aside with it', async () => {
      const aside = await decided(withDecisions('bunk-bed-scraps.yaml', chose('tie', AS_OF, NIGHTLY)));
      expect(aside.answer.chosen?.unweighed).toEqual([]);
      expect(agreedOption(aside)?.option.plan.treatment).toBe('tie');
      const unaware = await decided(withDecisions('bunk-bed-scraps.yaml', chose('tie')));
      expect(named(unaware.answer.chosen?.unweighed)).toEqual([NIGHTLY]);
      expect(agreedOption(unaware)).toBeUndefined();
    });

    it('falls with a stop, which nothing sets aside: the work then goes by nothing', async () => {
      const found = withDecisions(
        'guest-room-percale.yaml',
        chose('lines', '2026-03-01', 'touched-by-sewage-or-fuel'),
      );
      const { findings } = found.survey;
      const soaked = {
        ...found,
        survey: { ...found.survey, findings: { ...findings, sewage_or_fuel: true } },
      };
      const decision = await decided(soaked);
      const stops = decision.stops.map(({ id }) => id);
      expect(stops.length).toBeGreaterThan(0);
      expect(named(decision.answer.chosen?.unweighed)).toEqual(expect.arrayContaining(stops));
      expect(agreedOption(decision)).toBeUndefined();
    });
  });

  it('changes neither the advice nor a reason for it', async () => {
    const { chosen: _, ...plain } = (await decided(shippedCase('guest-room-percale.yaml'))).answer;
    const { chosen: __, ...beside } = (
      await decided(withDecisions('guest-room-percale.yaml', chose('lines')))
    ).answer;
    expect(beside).toEqual(plain);
  });

  it('is what an approved price is held against', async () => {
    const lines = (await decided(withDecisions('guest-room-percale.yaml', chose('lines')))).answer.chosen;
    const price = lines?.estimates.price.likely ?? 0;
    const { answer } = await decided({
      ...withDecisions('guest-room-percale.yaml', chose('lines')),
      approved: { on: '2026-03-01', price },
    });
    expect(answer.estimates?.price.likely).not.toBe(price);
    expect(answer.since_approval).toMatchObject({
      price: { approved: price, rise: 0 },
      needs_approval: false,
    });
  });

  it.each(CASE_FILES)(
    'of %s: hours are written down and learned for the plan that was priced',
    async (file) => {
      const plain = await decided(shippedCase(file));
      for (const treatment of TREATMENTS) {
        const overrides = rulesAgainst(treatment, plain).map(({ id }) => id);
        const quiltCase = withDecisions(file, chose(treatment, AS_OF, ...overrides));
        const agreed = agreedOption(await decided(quiltCase));
        const finished = { ...quiltCase, completed: { on: AS_OF } };
        // A stop stands against every choice.
        if (agreed?.option.plan.treatment !== treatment) continue;
        expect(planDone(evaluate(quiltCase, context))?.plan.id).toBe(agreed.option.plan.id);
        expect(planDone(evaluate(finished, context))?.plan.id).toBe(agreed.option.plan.id);
      }
    },
  );

  it('is taken for what was done, unless something else is recorded', () => {
    const done = (quiltCase: QuiltCase) => planDone(evaluate(quiltCase, context))?.plan.treatment;
    const chosen = withDecisions('guest-room-percale.yaml', chose('lines', '2026-03-01'));
    expect(done(shippedCase('guest-room-percale.yaml'))).toBe('tie');
    expect(done(chosen)).toBe('lines');
    expect(done({ ...chosen, completed: { on: '2026-06-01' } })).toBe('lines');
    expect(done({ ...chosen, completed: { on: '2026-06-01', treatment: 'backing' } })).toBe('backing');
    expect(done({ ...chosen, completed: { on: '2026-02-01' } })).toBe('tie');
  });
});
