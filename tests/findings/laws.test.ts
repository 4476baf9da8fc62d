import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Family, QuiltCase, Survey } from '../../src/casebook/model.ts';
import { ACTIONS, type Action, GRADES, UNIT_STATES, type UnitState } from '../../src/casebook/scales.ts';
import { plannedFacts } from '../../src/findings/as-found.ts';
import { type Fact, type Facts, isSpan } from '../../src/findings/fact.ts';
import type { SurveyedQuilt } from '../../src/findings/surveyed.ts';
import { figures } from './figures-fixture.ts';
import { found, sketch, surveyed } from './quilts.ts';
import { vocabulary } from './vocabulary-fixture.ts';

const ROWS = 3;
const COLUMNS = 4;
const LETTERS = ['A', 'B', 'C'] as const;

const state = fc.constantFrom(...(Object.keys(UNIT_STATES) as UnitState[]));
const seenState = state.filter((each) => each !== 'unseen');
const grade = fc.constantFrom(...GRADES);
const grid = <T>(cell: fc.Arbitrary<T>) =>
  fc.array(fc.array(cell, { minLength: COLUMNS, maxLength: COLUMNS }), { minLength: ROWS, maxLength: ROWS });

const aFamily = fc.record(
  {
    fragility: grade,
    fibre: fc.constantFrom('cotton', 'silk', 'wool', 'unknown' as const),
    dye_bleed: fc.constantFrom('none', 'trace_with_water', 'clear' as const),
    self_destructing: fc.boolean(),
  },
  { requiredKeys: [] },
) as fc.Arbitrary<Family>;

const families = fc.record({ A: aFamily, B: aFamily, C: aFamily });

const aCase = (survey: Partial<Survey>): QuiltCase => sketch({ rows: ROWS, columns: COLUMNS, survey });

const mapped = fc
  .record({ families, units: grid(state), family_map: grid(fc.constantFrom(...LETTERS)) })
  .map((survey) => aCase(survey));

/** Shares that leave room for the unstated ones. */
const counted = fc
  .record({
    families,
    shares: fc.tuple(...LETTERS.map(() => fc.option(fc.integer({ min: 0, max: 33 }), { nil: undefined }))),
    lost: fc.tuple(...LETTERS.map(() => fc.option(fc.integer({ min: 0, max: 10 }), { nil: undefined }))),
    counts: fc.record({
      of: fc.constant(100),
      lost: fc.integer({ min: 0, max: 40 }),
      missing: fc.integer({ min: 0, max: 20 }),
      worn: fc.integer({ min: 0, max: 20 }),
      unseen: fc.integer({ min: 0, max: 10 }),
    }),
  })
  .map(({ families: named, shares, lost, counts }) =>
    aCase({
      counts,
      families: Object.fromEntries(
        LETTERS.map((letter, index): [string, Family] => {
          const share = shares[index];
          const gone = lost[index];
          return [
            letter,
            {
              ...named[letter],
              ...(share === undefined ? {} : { share: share / 100 }),
              ...(gone === undefined ? {} : { lost: gone }),
            },
          ];
        }),
      ),
    }),
  );

const anyCase = fc.oneof(mapped, counted);

const RANGES = new Map(
  [...vocabulary.findings.values()].map(({ id, ordered, options, range }) => [
    id,
    ordered ? { min: 0, max: options.length - 1 } : range,
  ]),
);

/** Both bounds; unknown is the whole range. Undefined for what has no order. */
const bounds = (key: string, fact: Fact): { lo: number; hi: number } | undefined => {
  if (typeof fact === 'number') return { lo: fact, hi: fact };
  if (isSpan(fact)) return fact;
  const range = RANGES.get(key.slice(key.indexOf('.') + 1));
  return fact === undefined && range ? { lo: range.min, hi: range.max } : undefined;
};

const EPSILON = 1e-9;

/** Findings whose bounds after learning reach beyond those before. */
const widened = (before: Facts, after: Facts): string[] =>
  Object.keys(before).filter((key) => {
    const [wide, close] = [bounds(key, before[key]), bounds(key, after[key])];
    return wide && close && (close.lo < wide.lo - EPSILON || close.hi > wide.hi + EPSILON);
  });

const withFamily = (c: QuiltCase, letter: string, change: Partial<Family>): QuiltCase => ({
  ...c,
  survey: {
    ...c.survey,
    families: { ...c.survey.families, [letter]: { ...c.survey.families?.[letter], ...change } },
  },
});

const actionsFor = (quilt: SurveyedQuilt, pick: readonly Action[]) =>
  quilt.groups.map((group, index) => ({ group, action: pick[index % pick.length] ?? 'keep' }));

describe('learning a value only narrows what is known', () => {
  it('of a grade not known', () => {
    fc.assert(
      fc.property(anyCase, fc.constantFrom(...LETTERS), grade, (c, letter, fragility) => {
        fc.pre(c.survey.families?.[letter]?.fragility === undefined);
        expect(widened(found(c), found(withFamily(c, letter, { fragility })))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('of a grade seen in photos and then in hand', () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        const photos = { ...c, survey: { ...c.survey, seen: 'photos' as const } };
        expect(widened(found(photos), found(c))).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it('of the colour, of self-destruction, of the share of a family', () => {
    const learnt = fc.oneof(
      fc.constantFrom('none', 'clear' as const).map((dye_bleed) => ({ dye_bleed })),
      fc.boolean().map((self_destructing) => ({ self_destructing })),
      fc.integer({ min: 1, max: 33 }).map((share) => ({ share: share / 100 })),
    );
    fc.assert(
      fc.property(anyCase, fc.constantFrom(...LETTERS), learnt, (c, letter, change) => {
        const family = c.survey.families?.[letter] ?? {};
        fc.pre(Object.keys(change).every((key) => !(key in family)));
        // A share smaller than the pieces known to be lost of it would contradict the count.
        const room = (share: number) => c.survey.counts !== undefined && share >= (family.lost ?? 0) / 100;
        fc.pre(!('share' in change) || room(change.share));
        const [before, after] = [found(c), found(withFamily(c, letter, change))];
        // A count of pieces shared out by shares is an estimate, not a bound.
        const moved = widened(before, after).filter((key) => key !== 'finding.loss_by_count');
        expect(moved).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });

  it('of a unit not seen', () => {
    fc.assert(
      fc.property(mapped, fc.nat(ROWS - 1), fc.nat(COLUMNS - 1), seenState, (c, row, column, known) => {
        const put = (mark: UnitState) => ({
          ...c,
          survey: {
            ...c.survey,
            units: (c.survey.units ?? []).map((marks, r) =>
              marks.map((each, k) => (r === row && k === column ? mark : each)),
            ),
          },
        });
        // The share not seen measures what is not known: it must shrink, not narrow.
        const moved = widened(found(put('unseen')), found(put(known)));
        expect(moved.filter((key) => key !== 'finding.unseen_share')).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

describe('replacing more never makes the planned quilt weaker', () => {
  it('in what governs, in the worst cloth, in weak share and in loss', () => {
    const keys = [
      'governing_fragility',
      'worst_fragility',
      'weak_share',
      'failing_share',
      'loss',
      'weak_families',
    ];
    const picks = fc.array(fc.constantFrom(...ACTIONS), { minLength: 12, maxLength: 12 });
    fc.assert(
      fc.property(anyCase, picks, fc.nat(11), (c, pick, more) => {
        const quilt = surveyed(c);
        const facts = (actions: readonly Action[]) =>
          plannedFacts(quilt, actionsFor(quilt, actions), vocabulary, figures);
        const before = facts(pick);
        const after = facts(pick.map((action, index) => (index === more ? 'replace' : action)));
        for (const id of keys) {
          const [old, fresh] = [
            bounds(`planned.${id}`, before[`planned.${id}`]),
            bounds(`planned.${id}`, after[`planned.${id}`]),
          ];
          expect((fresh?.lo ?? 0) <= (old?.lo ?? 0) + EPSILON, `${id}, at best`).toBe(true);
          expect((fresh?.hi ?? 0) <= (old?.hi ?? 0) + EPSILON, `${id}, at worst`).toBe(true);
        }
      }),
      { numRuns: 600 },
    );
  });
});

describe('whatever the survey', () => {
  it('shares lie between nothing and the whole, bounds in order', () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        for (const [key, fact] of Object.entries(found(c))) {
          const kind = vocabulary.findings.get(key.slice('finding.'.length))?.kind;
          const both = bounds(key, fact);
          if (both) expect(both.lo, key).toBeLessThanOrEqual(both.hi);
          if (kind !== 'fraction' || !both) continue;
          expect(both.lo, key).toBeGreaterThanOrEqual(0);
          expect(both.hi, key).toBeLessThanOrEqual(1);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('groups add up to all units and to the whole top', () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        const quilt = surveyed(c);
        const count = quilt.groups.reduce((sum, group) => sum + group.count, 0);
        const share = quilt.groups.reduce((sum, group) => sum + group.share, 0);
        expect(count).toBe(quilt.total);
        expect(share).toBeCloseTo(1, 9);
      }),
    );
  });

  it('the order in which families are listed changes nothing', () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        const turned = Object.fromEntries(Object.entries(c.survey.families ?? {}).reverse());
        const other = { ...c, survey: { ...c.survey, families: turned } };
        expect(found(other)).toEqual(found(c));
        expect(surveyed(other)).toEqual(surveyed(c));
      }),
    );
  });

  it('keeping everything plans the quilt as it was found', () => {
    fc.assert(
      fc.property(anyCase, (c) => {
        const quilt = surveyed(c);
        const facts = found(c);
        const kept = plannedFacts(quilt, actionsFor(quilt, ['keep']), vocabulary, figures);
        for (const [key, fact] of Object.entries(kept)) {
          expect(fact, key).toEqual(facts[key.replace('planned.', 'finding.')]);
        }
      }),
    );
  });
});
