import type { Piecework, Point } from '../../../src/piecework/model.ts';
import type { Plan } from '../../../src/plans/model.ts';

// The quilt on the bench, for counting stitch by stitch. Nothing here comes from src/estimates: what a needle meets is
// found by looking where it lands. Shared with the program: the drawing of the units (outlines), and nothing else.

export type Layer = 'face' | 'allowance' | 'backing' | 'new cloth';
export type Spot = { readonly unit: string } | 'strip' | 'border' | 'nothing';

/** What lies at a place of the top once the plan is carried out. */
export interface Cloth {
  readonly old: boolean;
  readonly fresh: boolean;
}

// Trade brief, what is done with a unit: common practice, no source.
const CLOTHS: Readonly<Record<string, readonly [present: Cloth, missing: Cloth]>> = (() => {
  const [old, both, fresh, none] = [
    { old: true, fresh: false },
    { old: true, fresh: true },
    { old: false, fresh: true },
    { old: false, fresh: false },
  ] as const;
  return {
    keep: [old, none],
    restitch: [old, none],
    restuff: [old, none],
    support: [both, fresh],
    overlay: [both, fresh],
    patch_over: [both, fresh],
    replace: [fresh, fresh],
    remove: [none, none],
  };
})();

export const distance = (from: Point, to: Point): number => Math.hypot(to.x - from.x, to.y - from.y);

export const areaOf = (outline: readonly Point[]): number =>
  Math.abs(
    outline.reduce((sum, a, index) => {
      const b = outline[(index + 1) % outline.length] ?? a;
      return sum + a.x * b.y - b.x * a.y;
    }, 0),
  ) / 2;

const contains = (outline: readonly Point[], { x, y }: Point): boolean => {
  let inside = false;
  outline.forEach((a, index) => {
    const b = outline[(index + 1) % outline.length] ?? a;
    if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
  });
  return inside;
};

/** How far beside a line one looks for what lies there, in inches. */
export const HAIR = 1e-5;

/** One needle entry after the other along a straight run, each with its place; a last part of a stitch counts in part. */
export const walk = (
  from: Point,
  to: Point,
  perInch: number,
  enter: (at: Point, holes: number) => void,
): void => {
  const length = distance(from, to);
  const all = length * perInch;
  for (let done = 0; done < all - 1e-6; done += 1) {
    const holes = Math.min(1, all - done);
    const part = (done + holes / 2) / all;
    enter({ x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part }, holes);
  }
};

export class Bench {
  readonly plan: Plan;
  readonly piecework: Piecework;
  readonly #work = new Map<string, { readonly action: string; readonly missing: boolean }>();
  readonly #beyond: { readonly sides: boolean; readonly ends: boolean };

  /** `beyond`: whether a border of old cloth goes on at left and right, at top and bottom. */
  constructor(plan: Plan, beyond: { readonly sides: boolean; readonly ends: boolean }) {
    this.plan = plan;
    this.piecework = plan.quilt.piecework;
    this.#beyond = beyond;
    // A new back lies under everything: nobody bastes a support of its own under a unit that is there.
    const carried = plan.backing === 'add' || plan.backing === 'replace';
    for (const { action, group } of plan.actions) {
      const missing = group.state === 'missing';
      const done = action === 'support' && carried && !missing ? 'keep' : action;
      for (const at of group.where ?? []) this.#work.set(at, { action: done, missing });
    }
  }

  actionOf(unit: string): string {
    return this.#work.get(unit)?.action ?? 'keep';
  }

  isMissing(unit: string): boolean {
    return this.#work.get(unit)?.missing ?? false;
  }

  clothOf(unit: string): Cloth {
    return CLOTHS[this.actionOf(unit)]?.[this.isMissing(unit) ? 1 : 0] ?? { old: true, fresh: false };
  }

  cloth(spot: Spot): Cloth {
    if (typeof spot === 'object') return this.clothOf(spot.unit);
    return { old: spot !== 'nothing', fresh: false };
  }

  spot(at: Point): Spot {
    const { width, height, units } = this.piecework;
    const found = units.find(({ outline }) => contains(outline, at));
    if (found !== undefined) return { unit: found.at };
    if (at.x < 0 || at.x > width) return this.#beyond.sides ? 'border' : 'nothing';
    if (at.y < 0 || at.y > height) return this.#beyond.ends ? 'border' : 'nothing';
    return 'strip';
  }

  /** The two places a hair to either side of a run, `away` inches off it. */
  beside(from: Point, to: Point, at: Point, away: number): readonly [Spot, Spot] {
    const length = distance(from, to);
    const [dx, dy] = [(-(to.y - from.y) * away) / length, ((to.x - from.x) * away) / length];
    return [this.spot({ x: at.x + dx, y: at.y + dy }), this.spot({ x: at.x - dx, y: at.y - dy })];
  }

  /** Goes once round a unit, entering `perInch` times an inch, and says what lies beyond its edge there. */
  round(unit: string, perInch: number, enter: (beyond: Spot, holes: number) => void): void {
    const outline = this.piecework.units.find(({ at }) => at === unit)?.outline ?? [];
    outline.forEach((from, index) => {
      const to = outline[(index + 1) % outline.length] ?? from;
      walk(from, to, perInch, (at, holes) => {
        const both = this.beside(from, to, at, HAIR);
        const beyond = both.find((spot) => typeof spot !== 'object' || spot.unit !== unit);
        enter(beyond ?? 'nothing', holes);
      });
    });
  }

  /** Share of the whole quilt's area that is of some cloth. */
  share(of: (cloth: Cloth) => boolean): number {
    const { size } = this.plan.quilt;
    const whole = size.width * size.height;
    const areas = this.piecework.units.map(({ at, outline }) => ({ at, area: areaOf(outline) }));
    const rest = whole - areas.reduce((sum, { area }) => sum + area, 0);
    const found = areas.reduce((sum, { at, area }) => sum + (of(this.clothOf(at)) ? area : 0), 0);
    return (found + (of({ old: true, fresh: false }) ? rest : 0)) / whole;
  }
}
