/**
 * The quilt as a graph. Distances in inches from the viewer's top left, x to the right, y down.
 * Positions are a row letter and a column number: A1 is top left; after Z comes AA.
 */
export interface Unit {
  readonly at: string;
  readonly row: number;
  readonly column: number;
  /** On point, edges hold half units and corners quarter units. */
  readonly part: 'whole' | 'half' | 'quarter';
  /** Corners in order, for drawing and for areas. */
  readonly outline: readonly Point[];
  readonly area: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The shared edge of two units. On sashed layouts the strip between them counts as part of neither. */
export interface Join {
  readonly a: string;
  readonly b: string;
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
  /** The straight seam line it lies on. */
  readonly line: string;
}

/** A straight seam line across the quilt: the place for a line of quilting. Interior lines only. */
export interface SeamLine {
  readonly id: string;
  readonly direction: 'across' | 'down' | 'rising' | 'falling';
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
}

/** Where seam lines cross: the place for a tie or a tack. Interior crossings only. */
export interface Crossing {
  readonly at: Point;
  readonly units: readonly string[];
}

export interface Piecework {
  readonly kind: 'edge to edge' | 'sashed' | 'on point' | 'survey grid';
  readonly rows: number;
  readonly columns: number;
  readonly width: number;
  readonly height: number;
  /** Finished width and height of one unit, or the diagonal's extent on point. */
  readonly unit: { readonly width: number; readonly height: number };
  readonly units: readonly Unit[];
  readonly joins: readonly Join[];
  readonly lines: readonly SeamLine[];
  readonly crossings: readonly Crossing[];
  /** Patches sewn together in one unit, where known: what is counted on a survey grid. */
  readonly piecesPerUnit: number | undefined;
}

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
