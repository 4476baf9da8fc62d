import { type Cloth, hasNew, hasOld } from './planned-top.ts';
import type { Layout, Punctures } from './sewing.ts';

/** Where lines or points end up: how much in old cloth of the top, how much in new, and how the old part falls on units. */
export class Landing {
  old = 0;
  /** The part of `old` that is in no unit, such as strips. */
  loose = 0;
  fresh = 0;
  readonly over = new Map<string, number>();

  /** Adds an amount landing in one unit's cloth. */
  add(cloth: Cloth, amount: number, at?: string): void {
    if (amount === 0) return;
    if (hasNew(cloth)) this.fresh += amount;
    if (!hasOld(cloth)) return;
    this.old += amount;
    if (at === undefined) this.loose += amount;
    else this.over.set(at, (this.over.get(at) ?? 0) + amount);
  }

  /** Holes in old cloth, as they fall on the units where there is a map; what is in no unit lies anywhere. */
  inOldCloth(
    { tops }: Layout,
    layer: 'face' | 'allowance',
    each: number,
    reused: number,
  ): readonly Punctures[] {
    const part = (amount: number): Punctures => {
      const holes = amount * each;
      return { layer, holes, reused: holes * reused };
    };
    if (!tops.mapped) return [part(this.old)];
    const placed = { ...part(this.old - this.loose), over: () => this.over };
    return [placed, ...(this.loose > 0 ? [part(this.loose)] : [])];
  }
}
