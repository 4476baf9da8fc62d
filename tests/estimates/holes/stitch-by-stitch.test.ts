import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ACTIONS, type UnitState } from '../../../src/casebook/scales.ts';
import { holes, type SewingContext } from '../../../src/estimates/holes/holes.ts';
import { layOut } from '../../../src/piecework/lay-out.ts';
import type { Plan, PlanSpec } from '../../../src/plans/model.ts';
import { FULL } from '../../tiers.ts';
import { Bench } from './bench.ts';
import type { Count } from './counter.ts';
import { planFor, type Work, withFigures } from './fixtures.ts';
import { joinings } from './joinings.ts';
import { countByHand } from './stitch-by-stitch.ts';

// Stitch lengths that make whole numbers of entries an inch, so that no stitch straddles two units.
const settings = fc.record({
  'stitching.machine_joins': fc.constantFrom(2.54, 25.4 / 12),
  'stitching.machine_lines': fc.constantFrom(2.54, 3.175),
  'stitching.hand_joins': fc.constantFrom(8, 10),
  'stitching.hand_lines': fc.constantFrom(5, 8),
  'stitching.tie': fc.constantFrom(1, 2),
  'stitching.new_side_of_the_ditch': fc.constantFrom(0, 0.5, 1),
  'stitching.basting.lines.thread': fc.constantFrom(0, 1),
  'stitching.basting.ties.pins': fc.constantFrom(0, 1),
  'stitching.basting.in_seams': fc.constantFrom(1, 0.75),
});
const layouts = fc.record({
  kind: fc.constantFrom('edge to edge' as const, 'sashed' as const, 'on point' as const),
  rows: fc.integer({ min: 2, max: 4 }),
  columns: fc.integer({ min: 2, max: 4 }),
  sides: fc.constantFrom([4, 4] as const, [4, 6] as const, [6, 4] as const),
});
/** Inches of border on each side: at left and right, at top and bottom. */
const borders = fc.constantFrom([0, 0] as const, [4, 4] as const, [0, 4] as const);
const layers = fc.record({
  backing: fc.constantFrom<PlanSpec['backing']>('keep', 'add', 'replace', 'none'),
  sewnBy: fc.constantFrom('hand' as const, 'machine' as const),
  opens: fc.boolean(),
});
const contexts: fc.Arbitrary<SewingContext> = fc.record({
  piecing: fc.constantFrom(undefined, 'hand' as const, 'machine' as const),
  originalStitchesPerInch: fc.constantFrom(undefined, 6, 10),
  oldFastenings: fc.constantFrom<SewingContext['oldFastenings']>(
    undefined,
    { kind: 'none' },
    { kind: 'ties', gap: 5, restored: 0.1 },
    { kind: 'lines', gap: 3, restored: 0.5 },
    { kind: 'all_over', restored: 0.25 },
  ),
  oldBacking: fc.constantFrom(undefined, true, false),
  sleeve: fc.boolean(),
});
/** More often kept or replaced than anything else, so that every kind of neighbour meets every other. */
const planOutcomes = fc.tuple(
  fc.constantFrom('keep' as const, 'replace' as const, ...ACTIONS),
  fc.constantFrom<UnitState>('sound', 'lost', 'missing'),
);

type Recipe = typeof recipes extends fc.Arbitrary<infer T> ? T : never;

interface Quilt {
  readonly plan: Plan;
  readonly bench: Bench;
}

const recipes = fc.tuple(
  layouts,
  borders,
  joinings,
  layers,
  fc.array(planOutcomes, { minLength: 25, maxLength: 25 }),
  fc.constantFrom('none' as const, 'listed' as const, 'by line' as const, 'all' as const),
  fc.constantFrom('hand' as const, 'machine' as const),
  fc.array(fc.boolean(), { minLength: 64, maxLength: 64 }),
);

/** Built inside the property, so that a counterexample is printed short. */
const build = ([
  { kind, rows, columns, sides },
  [left, top],
  joining,
  more,
  work,
  resew,
  by,
  picks,
]: Recipe): Quilt => {
  // Blocks on point are square here: then their sides are whole inches.
  const finished = { width: sides[0], height: kind === 'on point' ? sides[0] : sides[1] };
  const layout = { kind, rows, columns, finished, sashing: 2 };
  const { width, height, units, joins } = layOut(layout, { width: 1, height: 1 });
  const size = { width: width + 2 * left, height: height + 2 * top };
  const whole = units.filter(({ part }) => part === 'whole');
  const done = whole.map(({ at }, index): Work => {
    const [action, state] = work[index] ?? ['keep', 'sound'];
    return { action, state, where: [at] };
  });
  const open = joins.filter((_, index) => picks[index] === true);
  const causes = ['thread', 'cloth', undefined] as const;
  const openAt = open.map(({ a, b }, index) => ({ a: b, b: a, cause: causes[index % 3] }));
  const moved = resew === 'none' ? 0 : openAt.filter(({ cause }) => cause === 'cloth').length;
  // A half of what is closed on every line, and all of it on every second.
  const beside = new Map(
    [...new Set(joins.map(({ line }) => line))].map((line, n) => [line, 1 - (n % 2) / 2]),
  );
  const count = { none: 0, listed: open.length, 'by line': joins.length - 1, all: joins.length }[resew];
  const resewn = { joins: count, by, moved, ...(resew === 'by line' ? { beside } : {}) };
  const bare = planFor(layout, size, done, { ...joining, ...more, resewn }, true);
  const plan = { ...bare, quilt: { ...bare.quilt, joins: { ...bare.quilt.joins, openAt } } };
  return { plan, bench: new Bench(plan, { sides: left > 0, ends: top > 0 }) };
};

/** Old cloth of the top nobody can place is shown spread over the old units. */
const perUnit = (count: Count, { bench, plan }: Quilt): ReadonlyMap<string, number> => {
  const units = plan.quilt.piecework.units;
  const old = units.filter(({ at }) => bench.clothOf(at).old);
  const over = old.length > 0 ? old : units;
  const area = over.reduce((sum, unit) => sum + unit.area, 0);
  const placed = [...count.units.values()].reduce((sum, each) => sum + each, 0);
  const loose = count.fresh.face + count.fresh.allowance - placed;
  const found = new Map(units.map(({ at }) => [at, count.units.get(at) ?? 0]));
  for (const unit of over) found.set(unit.at, (found.get(unit.at) ?? 0) + (loose * unit.area) / area);
  return found;
};

const runs = { numRuns: FULL ? 300 : 60 };

describe('holes counted on the bench, needle entry by needle entry', () => {
  it('are as many as estimated, layer by layer, new, re-used and inherited', () => {
    fc.assert(
      fc.property(recipes, settings, contexts, (recipe, changed, context) => {
        const quilt = build(recipe);
        const figures = withFigures(changed);
        const { fresh, reused, inherited } = countByHand(quilt.bench, figures, context);
        const estimate = holes(quilt.plan, figures, context);
        const pairs = {
          face: [estimate.newOldFace, fresh.face],
          allowance: [estimate.newOldAllowance, fresh.allowance],
          backing: [estimate.newOldBacking, fresh.backing],
          'new cloth': [estimate.newCloth, fresh['new cloth']],
          reused: [estimate.reused, reused],
          inherited: [estimate.inherited, inherited],
        } as const;
        const off = Object.entries(pairs).filter(([, [one, other]]) => Math.abs(one - other) > 0.5 + 1e-6);
        expect(Object.fromEntries(off)).toEqual({});
      }),
      runs,
    );
  });

  it('lie on the units where the estimate shows them', () => {
    fc.assert(
      fc.property(recipes, settings, contexts, (recipe, changed, context) => {
        const quilt = build(recipe);
        const figures = withFigures(changed);
        const counted = perUnit(countByHand(quilt.bench, figures, context), quilt);
        const { byUnit } = holes(quilt.plan, figures, context);
        // Whole holes are shared out so that they add up: one more or less a unit. At the edge of a quilt on point a
        // stitch of the binding may lie half on each of two units: one more.
        const slack = quilt.plan.quilt.piecework.kind === 'on point' ? 2 : 1;
        const off = Object.entries(byUnit ?? {}).filter(
          ([at, shown]) => Math.abs(shown - (counted.get(at) ?? 0)) > slack + 1e-6,
        );
        expect(Object.fromEntries(off.map(([at, shown]) => [at, [shown, counted.get(at)]]))).toEqual({});
      }),
      runs,
    );
  });
});
