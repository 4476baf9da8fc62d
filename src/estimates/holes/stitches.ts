import type { Figures } from '../../figures/model.ts';

/** Millimetres in an inch: exact by definition. */
export const MM_PER_INCH = 25.4;

/**
 * One way of sewing and the holes it makes in each cloth it goes through. Stitches sewn by hand are counted on the
 * top only, so a running stitch enters the cloth twice for each one counted.
 */
interface Stitch {
  readonly per: 'inch' | 'piece';
  /** What the setting says: stitches per inch, millimetres a stitch, inches a rung, passes. */
  readonly setting: string;
  /** Holes in the cloth sewn on to, per inch or per piece. */
  readonly ground: (setting: number) => number;
  /** Holes in the cloth laid on it: a patch, a binding, net. */
  readonly upper: (setting: number) => number;
  /** Rows side by side the holes fall into: a row takes only its share of a line's length. */
  readonly rows: 1 | 2;
}

const same = (holes: (setting: number) => number): Pick<Stitch, 'ground' | 'upper'> => ({
  ground: holes,
  upper: holes,
});
const ON_TOP = 'stitches per inch counted on top';

export type StitchKind =
  | 'running'
  | 'machine straight'
  | 'zigzag'
  | 'whip'
  | 'ladder'
  | 'appliqué blind'
  | 'tie'
  | 'pin'
  | 'thread basting'
  | 'clip';

export const STITCHES: Readonly<Record<StitchKind, Stitch>> = {
  running: { per: 'inch', setting: ON_TOP, ...same((stitches) => 2 * stitches), rows: 1 },
  'machine straight': {
    per: 'inch',
    setting: 'millimetres a stitch',
    ...same((mm) => MM_PER_INCH / mm),
    rows: 1,
  },
  // Length as the distance between needle entries along the line. Machines define it differently: count a scrap.
  zigzag: { per: 'inch', setting: 'millimetres a stitch', ...same((mm) => MM_PER_INCH / mm), rows: 2 },
  whip: { per: 'inch', setting: 'stitches per inch', ...same((stitches) => stitches), rows: 1 },
  ladder: { per: 'inch', setting: 'inches a rung', ...same((rung) => 1 / rung), rows: 1 },
  // The needle enters the ground beside the spot where it came out: entries lie in pairs across the line.
  'appliqué blind': {
    per: 'inch',
    setting: 'stitches per inch',
    ground: (stitches) => 2 * stitches,
    upper: (stitches) => stitches,
    rows: 2,
  },
  tie: { per: 'piece', setting: 'passes of the needle', ...same((passes) => 2 * passes), rows: 1 },
  pin: { per: 'piece', setting: 'pins', ...same((pins) => 2 * pins), rows: 1 },
  'thread basting': {
    per: 'inch',
    setting: 'inches from stitch to stitch',
    ...same((repeat) => 2 / repeat),
    rows: 1,
  },
  clip: { per: 'piece', setting: 'clips', ...same(() => 0), rows: 1 },
};

/**
 * Share of a stitched line's length taken by holes: holes per inch × needle in mm ÷ 25.4, row by row. Uncalibrated,
 * but it can be explained and compared. Rounded to a millionth, so that 0.3 is not more than 0.3.
 */
export const perforation = (kind: StitchKind, setting: number, needleMm: number): number => {
  const { ground, rows } = STITCHES[kind];
  return Math.round((1e6 * ground(setting) * needleMm) / rows / MM_PER_INCH) / 1e6;
};

/** Blade of a machine needle in mm from its metric number (NM), which is in hundredths of a millimetre. */
export const machineNeedle = (metric: number): number => metric / 100;

/** Blade in mm of the needle in use, as set in the figures. Throws ProblemError `missing-figure` for a hand size without one. */
export const needleInUse = (by: 'hand' | 'machine', figures: Figures): number =>
  by === 'machine'
    ? machineNeedle(figures.number('stitching.needle.machine'))
    : figures.number(`stitching.needle.hand_mm.size_${figures.number('stitching.needle.hand')}`);
