import type { Quilt } from '../casebook/model.ts';
import type { MeasureSystem } from '../quantities/measure.ts';

/**
 * What an estimate may know beyond the plan. All of it may be left out: what is not known widens the range
 * (how the quilt was joined) or is not counted (a sleeve for a quilt nobody said would hang).
 */
export interface Circumstances {
  /** The quilt as found. */
  readonly found?: Quilt | undefined;
  readonly hung?: boolean | undefined;
  /** Somebody has looked inside: damage that was hidden is among what was found, and the second stage is at hand. */
  readonly opened?: boolean | undefined;
  /** Measures in notes; inches unless given. */
  readonly system?: MeasureSystem | undefined;
}
