/**
 * What is known of `count` lives: failed somewhere in `from`…`to`. Exactly known: from = to. Right-censored, still
 * whole: to = Infinity. Failed before the one inspection (left-censored): from = 0. Current-status data are a mix of
 * the last two; readout data are intervals.
 */
export interface LifeData {
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

export const failedAt = (time: number, count = 1): LifeData => ({ from: time, to: time, count });
export const wholeAt = (time: number, count = 1): LifeData => ({ from: time, to: Infinity, count });
export const failedBetween = (from: number, to: number, count = 1): LifeData => ({ from, to, count });
export const failedBefore = (time: number, count = 1): LifeData => ({ from: 0, to: time, count });
