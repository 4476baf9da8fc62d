import type { SewingContext } from '../../../src/estimates/holes/sewing.ts';
import type { Figures } from '../../../src/figures/model.ts';
import { joiningGeometry } from '../../../src/piecework/patterns.ts';
import type { Plan } from '../../../src/plans/model.ts';
import { type Bench, HAIR, type Layer, type Spot, walk } from './bench.ts';
import { type Count, Counter } from './counter.ts';

const unitOf = (spot: Spot): string | undefined => (typeof spot === 'object' ? spot.unit : undefined);

/**
 * Counts a plan's holes the slow way: every operation is sewn on the bench needle entry by needle entry, by the trade's
 * counting conventions (common practice, no source; geometry). Only the stitch settings and the drawing of the quilt
 * are shared with the program.
 */
export const countByHand = (bench: Bench, figures: Figures, context: SewingContext): Count => {
  const { plan } = bench;
  const { size, piecework, joins } = plan.quilt;
  const set = (id: string): number => figures.number(`stitching.${id}`);
  const counter = new Counter();
  const top = (spot: Spot, layer: Layer, holes: number, chance = 0): void => {
    const cloth = bench.cloth(spot);
    if (cloth.old) counter.pierce(layer, holes, chance, unitOf(spot));
    if (cloth.fresh) counter.pierce('new cloth', holes);
  };
  /** A seam allowance: a patch ends at the seam, so only the cloth under it is entered there. */
  const allowance = (spot: Spot, holes: number, chance = 0): void => {
    const cloth = bench.cloth(spot);
    if (cloth.old) counter.pierce('allowance', holes, chance, unitOf(spot));
    else if (cloth.fresh) counter.pierce('new cloth', holes);
  };
  const oldBack = ['keep', 'add'].includes(plan.backing) && (context.oldBacking ?? plan.backing === 'keep');
  const newBack = ['add', 'replace'].includes(plan.backing);
  const back = (holes: number, chance = 0): void => {
    if (oldBack) counter.pierce('backing', holes, chance);
    if (newBack) counter.pierce('new cloth', holes);
  };

  const byMachine = context.piecing === 'machine';
  const counted = context.originalStitchesPerInch;
  const original = byMachine ? (counted ?? 25.4 / set('machine_joins')) : 2 * (counted ?? set('hand_joins'));
  const handStitches = byMachine ? undefined : counted;
  const seam = (by: 'hand' | 'machine') =>
    by === 'machine'
      ? { perInch: 25.4 / set('machine_joins'), chance: 0 }
      : { perInch: 2 * (handStitches ?? set('hand_joins')), chance: set('reused.joins_by_hand') };

  // A quilt with its back on stays shut unless it is opened: then a seam is drawn together from the front, rung by rung,
  // the needle going into one fold and then the other.
  const shut = !plan.opens && plan.backing !== 'none' && context.oldBacking !== false;
  const closing =
    shut && plan.resewn.by === 'hand'
      ? { perInch: 1 / set('ladder'), chance: set('reused.joins_by_hand') }
      : seam(plan.resewn.by);

  // Joins sewn again, each hole through both sides; those of replaced units are sewn when the new unit is set in.
  const listing = ({ a, b }: { a: string; b: string }) =>
    joins.openAt.find((open) => [open.a, open.b].sort().join() === [a, b].sort().join());
  const all = plan.resewn.joins >= piecework.joins.length;
  for (const join of piecework.joins) {
    const ends = [join.a, join.b];
    const open = listing(join);
    const share = open !== undefined || all ? 1 : (plan.resewn.beside?.get(join.line) ?? 0);
    if (plan.resewn.joins === 0 || share === 0) continue;
    // Along a line where the cloth gave way it would give way again: the needle keeps clear of the old holes.
    const chance = open?.cause === 'cloth' ? 0 : closing.chance;
    if (ends.some((at) => bench.actionOf(at) === 'replace' || bench.actionOf(at) === 'remove')) continue;
    if (ends.some((at) => !bench.clothOf(at).old && !bench.clothOf(at).fresh)) continue;
    for (const unit of ends) {
      walk(join.from, join.to, closing.perInch, (_, holes) => allowance({ unit }, share * holes, chance));
      if (bench.clothOf(unit).old)
        walk(join.from, join.to, original, (_, holes) => counter.leave(share * holes));
    }
  }
  counter.done();

  // A new unit is sewn all round to whatever is beside it: a unit, a strip, a border. The bare edge is bound, not sewn.
  const setting = seam(plan.resewn.by);
  const isSewnTo = (beyond: Spot): boolean => bench.cloth(beyond).old || bench.cloth(beyond).fresh;
  const isNew = (spot: Spot): boolean => typeof spot === 'object' && bench.actionOf(spot.unit) === 'replace';
  for (const { at } of piecework.units) {
    if (bench.actionOf(at) !== 'replace') continue;
    bench.round(at, setting.perInch, (beyond, holes) => {
      if (!isSewnTo(beyond)) return;
      counter.pierce('new cloth', holes);
      // Two new units side by side: each counts its own allowance.
      if (!isNew(beyond)) allowance(beyond, holes, setting.chance);
    });
    bench.round(at, original, (beyond, holes) => {
      if (bench.cloth(beyond).old) counter.leave(holes);
    });
  }
  counter.done();

  for (const { at: unit } of piecework.units) {
    if (bench.actionOf(unit) !== 'restitch' || bench.isMissing(unit)) continue;
    const part = set('restitched');
    bench.round(unit, closing.perInch, (_, holes) => allowance({ unit }, 2 * part * holes, closing.chance));
    bench.round(unit, original, (_, holes) => counter.leave(2 * part * holes));
  }
  counter.done();
  for (const { at: unit } of piecework.units) {
    if (bench.actionOf(unit) !== 'restuff' || bench.isMissing(unit)) continue;
    const opened = { x: set('restuffed'), y: 0 };
    for (const _fold of [1, 2]) {
      walk({ x: 0, y: 0 }, opened, 1 / set('ladder'), (_, holes) => allowance({ unit }, holes));
      walk({ x: 0, y: 0 }, opened, original, (_, holes) => counter.leave(holes));
    }
  }
  counter.done();

  // A patch, net or support goes round its unit in the seam: in the unit's own allowance, or, where the unit is gone,
  // in that of whatever is beside it.
  const covers = {
    patch_over: { ground: 2 * set('applique'), upper: set('applique') },
    overlay: { ground: 2 * set('overlay'), upper: 2 * set('overlay') },
    support: { ground: 2 * set('support'), upper: 2 * set('support') },
  };
  for (const [action, { ground, upper }] of Object.entries(covers))
    for (const { at: unit } of piecework.units) {
      if (bench.actionOf(unit) !== action) continue;
      bench.round(unit, upper, (_, holes) => counter.pierce('new cloth', holes));
      bench.round(unit, ground, (beyond, holes) =>
        allowance(bench.clothOf(unit).old ? { unit } : beyond, holes),
      );
    }
  counter.done();

  // Pins on a grid, basting thread in rows both ways: anywhere on the quilt, so old and new by their areas.
  const anywhere = (layer: Layer, holes: number): void => {
    counter.pierce(layer, holes * bench.share(({ old }) => old));
    counter.pierce('new cloth', holes * bench.share(({ fresh }) => fresh));
    back(holes);
  };
  if (plan.joining !== 'none') {
    const apart = set('basting.apart');
    const rows = (side: number): number => {
      let count = 0;
      for (let at = 0; at <= side + 1e-9; at += apart) count += 1;
      return count;
    };
    const [pins, thread] = [set(`basting.${plan.joining}.pins`), set(`basting.${plan.joining}.thread`)];
    const inSeams = set('basting.in_seams');
    for (let pin = 0; pin < rows(size.width) * rows(size.height); pin += 1) {
      anywhere('allowance', 2 * pins * inSeams);
      anywhere('face', 2 * pins * (1 - inSeams));
    }
    const perInch = 2 / (set('basting.thread_stitch') + set('basting.thread_space'));
    for (const [count, run] of [
      [rows(size.height), size.width],
      [rows(size.width), size.height],
    ] as const)
      for (let row = 0; row < count; row += 1)
        walk({ x: 0, y: 0 }, { x: run, y: 0 }, perInch, (_, holes) => anywhere('face', thread * holes));
  }

  const geometry = joiningGeometry(piecework, plan);
  if (plan.joining === 'ties' || plan.joining === 'tacks') {
    const holes = 2 * set(plan.joining === 'ties' ? 'tie' : 'tack');
    const chance = context.oldFastenings?.kind === 'ties' ? set('reused.ties') : 0;
    for (const { at } of geometry.points) {
      // What meets at the point: looked for all round it, a hair away.
      const met = [1, 3, 5, 7, 9, 11, 13, 15]
        .map((step) => (step * Math.PI) / 8)
        .map((angle) => bench.spot({ x: at.x + Math.cos(angle) / 50, y: at.y + Math.sin(angle) / 50 }));
      const there = met.filter((spot) => bench.cloth(spot).old || bench.cloth(spot).fresh);
      const inSeam = new Set(met.map((spot) => unitOf(spot) ?? spot)).size > 1 || met[0] === 'strip';
      for (const spot of there) top(spot, inSeam ? 'allowance' : 'face', holes / there.length, chance);
      back(holes, chance);
    }
  }

  if (plan.joining === 'lines') {
    const machine = plan.sewnBy === 'machine';
    const perInch = machine ? 25.4 / set('machine_lines') : 2 * (handStitches ?? set('hand_lines'));
    const chance = context.oldFastenings?.kind === 'lines' && !machine ? set('reused.lines_by_hand') : 0;
    const strip = stripOf(plan);
    for (const { from, to, place } of geometry.lines)
      walk(from, to, perInch, (at, holes) => {
        back(holes, chance);
        if (place === 'cloth') {
          const spot = bench.beside(from, to, at, HAIR).find((each) => typeof each === 'object') ?? 'strip';
          top(spot, 'face', holes, chance);
          return;
        }
        // In the ditch: one neighbour or the other. Where a strip lies between, it is in every ditch with either of them.
        const [one, other] = bench.beside(from, to, at, strip / 2 + HAIR);
        const ditch = strip > 0 ? holes / 2 : holes;
        if (strip > 0) top('strip', 'face', holes - ditch, chance);
        for (const [spot, share] of lowSides(bench, one, other, set('new_side_of_the_ditch')))
          top(spot, 'face', ditch * share, chance);
      });
  }
  counter.done();

  bindAndHang();
  oldJoining();
  return counter.count;

  function bindAndHang(): void {
    // Opening takes the old binding off, and a new back has a raw edge.
    if (newBack || plan.opens) {
      const { perInch, chance } = seam(plan.sewnBy);
      const through = (spot: Spot, holes: number): void => {
        if (bench.cloth(spot).old) counter.leave(holes);
        top(spot, 'allowance', holes, chance);
        counter.pierce('new cloth', holes);
        back(holes, chance);
      };
      const [left, upper] = [(piecework.width - size.width) / 2, (piecework.height - size.height) / 2];
      const [right, lower] = [left + size.width, upper + size.height];
      const corners = [
        { x: left, y: upper },
        { x: right, y: upper },
        { x: right, y: lower },
        { x: left, y: lower },
        { x: left, y: upper },
      ];
      for (let side = 0; side < 4; side += 1) {
        const [from, to] = [corners[side] ?? { x: 0, y: 0 }, corners[side + 1] ?? { x: 0, y: 0 }];
        // Going round clockwise, the quilt lies to the right of the edge.
        walk(from, to, perInch, (at, holes) => through(bench.beside(from, to, at, HAIR)[0], holes));
        const run = { x: side % 2 === 0 ? size.width : size.height, y: 0 };
        walk({ x: 0, y: 0 }, run, set('whip'), (_, holes) => {
          counter.pierce('new cloth', holes);
          back(holes);
        });
      }
    }
    counter.done();
    if (context.sleeve !== true || plan.treatment === 'leave') return;
    const run = { x: size.width - set('sleeve_short_of_width'), y: 0 };
    for (const _edge of ['upper', 'lower'])
      walk({ x: 0, y: 0 }, run, set('whip'), (_, holes) => {
        counter.pierce('new cloth', holes);
        if (newBack) counter.pierce('new cloth', holes);
        else if (oldBack) counter.pierce('backing', holes);
      });
  }

  /** Taken out, it leaves its holes; put back where nothing new takes its place, it goes through them again. */
  function oldJoining(): void {
    const found = context.oldFastenings;
    const { width, height } = size;
    const gap = found?.gap;
    let holes = 0;
    if (found?.kind === 'ties' && gap !== undefined) holes = (width / gap) * (height / gap) * 2 * set('tie');
    if (found?.kind === 'lines' && gap !== undefined)
      holes = ((width / gap) * height + (height / gap) * width) * original;
    if (found?.kind === 'all_over') holes = width * height * set('old_all_over') * original;
    const inTop = holes * bench.share(({ old }) => old);
    if (plan.opens) counter.leave(inTop);
    else if (plan.joining === 'none' && plan.treatment !== 'leave') {
      counter.pierce('face', inTop * (found?.restored ?? 0), 1);
      counter.leave(inTop * (found?.restored ?? 0));
      back(inTop * (found?.restored ?? 0), 1);
    }
    counter.done();
  }
};

const stripOf = ({ quilt: { piecework } }: Plan): number =>
  piecework.kind === 'sashed'
    ? (piecework.width - piecework.columns * piecework.unit.width) / (piecework.columns - 1)
    : 0;

/** On which side of a seam a stitch falls: either alike; never where there is no cloth; as far as planned, on the new one. */
const lowSides = (
  bench: Bench,
  one: Spot,
  other: Spot,
  newSide: number,
): readonly (readonly [Spot, number])[] => {
  const [a, b] = [bench.cloth(one), bench.cloth(other)];
  const none = (cloth: typeof a): boolean => !cloth.old && !cloth.fresh;
  if (none(a)) return [[other, 1]];
  if (none(b)) return [[one, 1]];
  const toNew = (1 + newSide) / 2;
  if (a.old === b.old)
    return [
      [one, 0.5],
      [other, 0.5],
    ];
  return a.old
    ? [
        [one, 1 - toNew],
        [other, toNew],
      ]
    : [
        [one, toNew],
        [other, 1 - toNew],
      ];
};
