import type { Figures } from '../../figures/model.ts';

/** Blade of a machine needle in mm from its metric number (NM), which is in hundredths of a millimetre. */
export const machineNeedle = (metric: number): number => metric / 100;

/** Blade in mm of the needle in use, as set in the figures. Throws ProblemError `missing-figure` for a hand size without one. */
export const needleInUse = (by: 'hand' | 'machine', figures: Figures): number =>
  by === 'machine'
    ? machineNeedle(figures.number('stitching.needle.machine'))
    : figures.number(`stitching.needle.hand_mm.size_${figures.number('stitching.needle.hand')}`);
