import type { Construction, Fibre, ToldCause } from '../casebook/model.ts';
import type { UnitState } from '../casebook/scales.ts';
import type { Piecework } from '../piecework/model.ts';
import type { Fact, Span } from './fact.ts';

/**
 * What a survey says of a quilt, worked out once: the meeting point between a case file and everything after it.
 * Grades are indices into GRADES (0 sound … 4 failing); a grade not known, or seen in photos only, is a span.
 */
export interface SurveyedQuilt {
  readonly piecework: Piecework;
  /** What the counts count: blocks of the layout, or patches where the construction has no blocks. */
  readonly counting: 'units' | 'patches';
  /** How many of them there are. */
  readonly total: number;
  readonly size: { readonly width: number; readonly height: number };
  readonly construction: Construction | undefined;
  readonly families: Readonly<Record<string, SurveyedFamily>>;
  /** Every unit, sorted into groups of one state and one fabric; the counts add up to `total`. */
  readonly groups: readonly UnitGroup[];
  readonly joins: SurveyedJoins;
  /** What did some of the damage, as it was told. */
  readonly causes?: readonly ToldCause[];
}

export interface SurveyedFamily {
  readonly letter: string;
  readonly name: string;
  readonly fibre: Fibre;
  readonly fragility: number | Span;
  readonly dyeBleed: Fact;
  readonly selfDestructing: boolean | undefined;
  /** Share of the top's area, as counted on the map or as stated. */
  readonly share: number | Span;
}

export interface UnitGroup {
  /** What the units count as: their one mark, or the gravest of several. */
  readonly state: UnitState;
  /** What else was marked on each of them. */
  readonly also?: readonly UnitState[];
  /** Undefined for cloth of no fabric that was surveyed, and for blocks of many fabrics. */
  readonly family: string | undefined;
  /** As many as is likely, where the statements about the quilt leave it open. */
  readonly count: number;
  /** Share of the top's area, as likely. */
  readonly share: number;
  /** The least and the most of the top that all statements together allow it. */
  readonly least: number;
  readonly most: number;
  /** Positions, where there is a map; supposed, where the map does not tell which fabric lies where. */
  readonly where: readonly string[] | undefined;
  /** All places that could be theirs: those of their state. */
  readonly among: readonly string[] | undefined;
  /** The fabrics that blocks of many fabrics may be made of, by area; their counts are no blocks. */
  readonly cloth?: readonly UnitGroup[];
}

export interface SurveyedJoins {
  /** Joins the layout has (its graph), or patch joins estimated where patches are counted. */
  readonly total: number;
  readonly inspected: number | undefined;
  readonly open: number | undefined;
  readonly thread: number | undefined;
  readonly cloth: number | undefined;
  readonly allowance: number | undefined;
  /** Mean length of one join in inches. */
  readonly length: number;
  /** Joins listed one by one as open, `C4|C5` or `B2/C2`. */
  readonly openAt: readonly {
    readonly a: string;
    readonly b: string;
    readonly cause: 'thread' | 'cloth' | 'allowance' | undefined;
  }[];
}
