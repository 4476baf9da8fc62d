import type { JoiningGeometry } from '../../piecework/patterns.ts';
import { type Cloth, hasNew, hasOld, type PlannedTop } from './planned-top.ts';
import type { Punctures } from './sewing.ts';

/** Where lines or points end up: how much in old cloth of the top, how much in new, and how the old part falls on units. */
export interface Landing {
  readonly old: number;
  /** The part of `old` that is in no unit, such as strips. */
  readonly loose: number;
  readonly fresh: number;
  readonly over: () => ReadonlyMap<string, number>;
}

/** Adds an amount landing in one unit's cloth. */
export class Tally {
  old = 0;
  loose = 0;
  fresh = 0;
  readonly #over: Map<string, number> | undefined;

  /** `over` collects the old part unit by unit; left out where only the sums are wanted. */
  constructor(over?: Map<string, number>) {
    this.#over = over;
  }

  add(cloth: Cloth, amount: number, at?: string): void {
    if (amount === 0) return;
    if (hasNew(cloth)) this.fresh += amount;
    if (!hasOld(cloth)) return;
    this.old += amount;
    if (at === undefined) this.loose += amount;
    else this.#over?.set(at, (this.#over.get(at) ?? 0) + amount);
  }
}

/** Holes in old cloth of the top, as they fall on the units where there is a map; what is in no unit lies anywhere. */
export const inOldCloth = (
  { old, loose, over }: Landing,
  layer: 'face' | 'allowance',
  perAmount: number,
  reused: number,
  mapped: boolean,
): readonly Punctures[] => {
  const part = (amount: number): Punctures => {
    const holes = amount * perAmount;
    return { layer, holes, reused: holes * reused };
  };
  if (!mapped) return [part(old)];
  return [{ ...part(old - loose), over }, ...(loose > 0 ? [part(loose)] : [])];
};

type Landings = WeakMap<JoiningGeometry, Map<string | number, Landing>>;
const cache = new WeakMap<PlannedTop, Landings>();

/**
 * Runs `fill` for the sums at once and for the units when they are asked for; once for the same top, geometry and
 * setting, because plans that differ only in backing, batting or hand share all three.
 */
export const placeHoles = (
  tops: PlannedTop,
  geometry: JoiningGeometry,
  setting: string | number,
  fill: (tally: Tally) => void,
): Landing => {
  const ofTop: Landings = cache.get(tops) ?? new WeakMap();
  cache.set(tops, ofTop);
  const known = ofTop.get(geometry) ?? new Map<string | number, Landing>();
  ofTop.set(geometry, known);
  const before = known.get(setting);
  if (before !== undefined) return before;
  const sums = new Tally();
  fill(sums);
  let units: Map<string, number> | undefined;
  const over = (): ReadonlyMap<string, number> => {
    if (units === undefined) {
      units = new Map();
      fill(new Tally(units));
    }
    return units;
  };
  const landing = { old: sums.old, loose: sums.loose, fresh: sums.fresh, over };
  known.set(setting, landing);
  return landing;
};
