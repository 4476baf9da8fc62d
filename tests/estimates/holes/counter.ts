import type { Layer } from './bench.ts';

/** What was counted, not rounded. */
export interface Count {
  readonly fresh: Record<Layer, number>;
  reused: number;
  inherited: number;
  /** New holes in old cloth of the top on each unit; the rest of them lies in strips, borders or anywhere. */
  readonly units: Map<string, number>;
}

/** One operation at a time: what it enters, and how many old holes its unpicked stitches leave. */
export class Counter {
  readonly count: Count = {
    fresh: { face: 0, allowance: 0, backing: 0, 'new cloth': 0 },
    reused: 0,
    inherited: 0,
    units: new Map(),
  };
  #again = 0;
  #left = 0;

  /** `chance`: how likely an entry finds an old hole. */
  pierce(layer: Layer, holes: number, chance = 0, unit?: string): void {
    const fresh = holes * (1 - chance);
    this.count.fresh[layer] += fresh;
    this.count.reused += holes - fresh;
    if (layer !== 'face' && layer !== 'allowance') return;
    this.#again += holes - fresh;
    if (unit !== undefined) this.count.units.set(unit, (this.count.units.get(unit) ?? 0) + fresh);
  }

  leave(holes: number): void {
    this.#left += holes;
  }

  done(): void {
    this.count.inherited += Math.max(0, this.#left - this.#again);
    this.#again = 0;
    this.#left = 0;
  }
}
