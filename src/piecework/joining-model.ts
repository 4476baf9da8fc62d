import type { Point, SeamLine } from './model.ts';

export type Joining = 'none' | 'tacks' | 'ties' | 'lines';

/** Where new joining goes on a piecework. */
export type Pattern =
  | 'none'
  | 'every crossing'
  | 'every second crossing'
  | 'crossings and centres'
  | 'every seam'
  | 'every second seam'
  | 'every seam and mid-unit';

/** Lines one way or both. On point `across` are the rising lines and `down` the falling ones. */
export type Directions = 'both' | 'across' | 'down';

/** In the groove of a seam, or in the cloth of one unit away from any seam. */
export type Place = 'seam' | 'cloth';

/** Where one tie or tack goes: the units whose cloth meets there. */
export interface JoiningPoint {
  readonly at: Point;
  readonly units: readonly string[];
  readonly place: Place;
}

/** Part of a line: between two units (in a seam), within one, or, on sashed layouts, in strips only. */
export interface Stretch {
  readonly units: readonly string[];
  readonly length: number;
}

export interface JoiningLine extends SeamLine {
  readonly place: Place;
  /** Lengths add up to the line's. */
  readonly stretches: readonly Stretch[];
}

/** New joining laid out on a quilt: what is sewn where. Lengths in inches. */
export interface JoiningGeometry {
  readonly points: readonly JoiningPoint[];
  readonly lines: readonly JoiningLine[];
  /** Length of all lines together. */
  readonly length: number;
  /** Widest distance left without a fastening. */
  readonly gap: number;
}

/** How one layout answers for its lines and crossings: what patterns need to know of it. */
export interface Frame {
  /** Distance between neighbouring lines, and how many bands of cloth the lines of that direction part. */
  readonly across: { readonly pitch: number; readonly bands: number };
  readonly down: { readonly pitch: number; readonly bands: number };
  /** From a crossing to the middle of a unit beside it. */
  readonly toCentre: number;
  /** Crossings with the numbers, from 1, of the two lines that cross. */
  readonly crossings: readonly {
    readonly point: JoiningPoint;
    readonly across: number;
    readonly down: number;
  }[];
  readonly centres: readonly JoiningPoint[];
  /** Seam lines in order, from 1. */
  readonly seams: Readonly<Record<'across' | 'down', readonly JoiningLine[]>>;
  /** Lines through the middles of units. */
  readonly middles: Readonly<Record<'across' | 'down', readonly JoiningLine[]>>;
}
