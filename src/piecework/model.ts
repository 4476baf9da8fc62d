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
