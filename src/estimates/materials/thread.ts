/**
 * Stitch classes of ISO 4915 as far as quilts meet them. `fixed` is thread along the cloth, in lengths of the seam;
 * each stitch also passes the layers twice.
 */
export const STITCH_CLASSES = {
  '101': { name: 'single-thread chainstitch', fixed: 3 },
  '301': { name: 'lockstitch', fixed: 2 },
  '401': { name: 'two-thread chainstitch', fixed: 4 },
} as const satisfies Record<string, { name: string; fixed: number }>;

export type StitchClass = keyof typeof STITCH_CLASSES;

/** Inches of thread for an inch of seam through layers `thickness` in thick, by geometry, with no slack. */
export const threadPerInch = (stitch: StitchClass, thickness: number, stitchesPerInch: number): number =>
  STITCH_CLASSES[stitch].fixed + 2 * thickness * stitchesPerInch;

/** Thread for a seam from the share each thread takes of its length, as measured on a sample or read from a table. */
export const threadFromRatios = (seam: number, ratios: readonly number[], waste = 0): number =>
  seam * ratios.reduce((sum, ratio) => sum + ratio, 0) * (1 + waste);
