import type {
  Action,
  Cause,
  Grade,
  Hazard,
  ToldDamage,
  ToldExtent,
  Treatment,
  UnitState,
  Use,
} from './scales.ts';

/**
 * A case as the rest of the house sees it: validated, lengths in inches, areas in square inches, weights in
 * pounds, shares as fractions, dates as `YYYY-MM-DD`. Whatever the file does not say is absent, and absent
 * means unknown. Shapes follow the case-file contract name by name.
 */
export interface QuiltCase {
  readonly mendwise: 1;
  readonly case: string;
  readonly opened?: string;
  readonly reference?: boolean;
  readonly client: Client;
  readonly quilt: Quilt;
  readonly history?: readonly Spell[];
  readonly survey: Survey;
  readonly approved?: { readonly on?: string; readonly hours?: number; readonly price?: number };
  readonly resurveys: readonly Resurvey[];
  /** What others state in surveys of their own, in files beside the case: a hazard in any of them stops the quilt. */
  readonly elsewhere?: readonly HazardLook[];
  /** What was done about hazards, in the order of the file: each lifts the stop it answers. */
  readonly treated?: readonly TreatedHazard[];
  readonly photos: readonly { readonly file: string; readonly of?: string; readonly when?: string }[];
  readonly expect?: Expectation;
  /** What was decided over the years, oldest first. */
  readonly decisions?: readonly RecordedDecision[];
  readonly completed?: Completed;
  readonly followups?: readonly Followup[];
  readonly log?: readonly LogEntry[];
}

/** One look at the quilt: when, and what it states, hazards among it. */
export interface HazardLook {
  readonly on?: string;
  readonly by?: string;
  readonly findings: Readonly<Record<string, number | string | boolean>>;
}

/** A hazard that was dealt with, and who confirms it. */
export interface TreatedHazard {
  readonly hazard: Hazard;
  readonly how: string;
  readonly by: string;
  readonly on: string;
  readonly confirmed_by: string;
  /** What came of it. A thing that is still there lifts no stop, and poison is only ever tested for. */
  readonly found?: 'harmless' | 'present';
}

/** The work is done: follow-ups, life and hours are reckoned from here. */
export interface Completed {
  readonly on: string;
  readonly by?: string;
  /** The treatment carried out, where it is not the one recommended. */
  readonly treatment?: Treatment;
  /** New holes in old cloth, as counted on the bench. */
  readonly holes?: number;
}

/** Where something came open after the repair. */
export const OPENINGS = ['old_cloth', 'old_joins', 'junctions', 'new_work'] as const;

/** What was seen or told of a quilt some time after its repair. */
export interface Followup {
  readonly on: string;
  readonly by?: string;
  readonly seen?: 'in hand' | 'photos' | 'told';
  /** The use actually made of it. */
  readonly use?: Use;
  /** Washings since the follow-up before. */
  readonly washings?: number;
  readonly washing?: 'none' | 'hand' | 'machine';
  /** New openings since the follow-up before: in old cloth, old joins, where old meets new, in new work. */
  readonly openings?: Readonly<Partial<Record<(typeof OPENINGS)[number], number>>>;
  /** Whether it needs its next repair. */
  readonly repair_due?: boolean;
  readonly photos?: readonly string[];
  readonly choose_again?: boolean;
  readonly note?: string;
}

/** Hours as worked. */
export interface LogEntry {
  readonly on?: string;
  readonly by?: string;
  readonly operation: string;
  readonly hours: number;
  /** How many were done in that time, in the operation's own unit. */
  readonly count?: number;
  readonly note?: string;
}

/** A decision as it was taken. `kind` otherwise: the practitioner chose against the recommendation; client: the client's choice. */
export interface RecordedDecision {
  readonly on: string;
  readonly kind?: 'recommended' | 'otherwise' | 'client';
  readonly by?: string;
  readonly standing?: 'go_ahead' | 'not_yet' | 'refer' | 'decline';
  /** Absent where the answer was to refer or to decline. */
  readonly treatment?: Treatment;
  readonly chosen?: Treatment;
  readonly because?: string;
  /** Rules the choice went against. */
  readonly overrides?: readonly string[];
  readonly risk_note?: string;
  /** Treatments the client was shown. */
  readonly shown?: readonly Treatment[];
  /** Digest of the rulebook, and of the case as it was: both are kept, so that the decision can be made again. */
  readonly rulebook?: string;
  readonly findings?: string;
  readonly practice?: RecordedPractice;
}

export interface RecordedPractice {
  readonly currency: string;
  readonly rate_per_hour: number;
  readonly minimum: number;
  readonly rounding: number;
  readonly deposit: number;
  readonly units: 'inches' | 'metric';
  readonly washing: 'museum' | 'studio';
}

interface Client {
  readonly ref?: string;
  readonly wish?: 'repair' | 'restore' | 'conserve';
  readonly intended_use?: Use;
  readonly hung?: boolean;
  readonly budget?: number;
  readonly owners_agree?: boolean;
  readonly wanted_years?: number;
  /** What is wrong with it, as told in a first message: what to look for, never what was found. */
  readonly damage?: readonly ToldDamage[];
  readonly damage_extent?: ToldExtent;
}

export type Construction =
  | 'pieced'
  | 'summer_spread'
  | 'tied_comforter'
  | 'wholecloth'
  | 'crazy'
  | 'foundation'
  | 'string'
  | 'log_cabin'
  | 'hexagon'
  | 'applique'
  | 'puffed_squares'
  | 'yo_yo'
  | 'cathedral_window'
  | 't_shirt'
  | 'double_knit';

export type Fibre = 'cotton' | 'linen' | 'wool' | 'silk' | 'polyester' | 'blend' | 'knit' | 'unknown';

export interface Quilt {
  readonly title?: string;
  readonly construction?: Construction;
  readonly made?: {
    readonly about?: number;
    readonly sure?: 'family account' | 'inscribed' | 'documented' | 'guess';
  };
  readonly size: { readonly width: number; readonly height: number };
  readonly layout?: LayoutSpec;
  readonly batting?: {
    readonly kind?: 'none' | 'loose' | 'bonded' | 'needled' | 'unknown';
    readonly fibre?: Fibre;
    readonly rated_gap?: number;
    readonly migrated?: number;
    readonly crumbling?: boolean;
  };
  readonly backing?: {
    readonly kind?: 'own' | 'none' | 'unknown';
    readonly fragility?: Grade;
    readonly damaged?: number;
  };
  readonly binding?: { readonly fragility?: Grade; readonly worn?: number };
  /** As found. `gap` is the widest unfastened distance, `missing` the share of old fastenings gone. */
  readonly joining?: {
    readonly kind?: 'none' | 'ties' | 'lines' | 'all_over';
    readonly gap?: number;
    readonly missing?: number;
  };
  readonly weight?: number;
  readonly sewn?: { readonly piecing?: 'hand' | 'machine'; readonly stitches_per_inch?: number };
  /** Units nobody may touch, such as an inscribed one. */
  readonly must_stay?: readonly string[];
}

export interface LayoutSpec {
  readonly kind: 'edge to edge' | 'sashed' | 'on point' | 'survey grid';
  readonly rows: number;
  readonly columns: number;
  /** Finished size of one unit. On point: the side of the block, not its diagonal. */
  readonly finished?: { readonly width: number; readonly height: number };
  readonly pieces_per_unit?: number;
  /** Finished width of the sashing strips, sashed layouts. */
  readonly sashing?: number;
}

export interface Spell {
  readonly use: Use;
  readonly years: number;
  readonly washing?: 'none' | 'hand' | 'machine' | 'unknown';
}

export interface Family {
  readonly name?: string;
  readonly fibre?: Fibre;
  readonly fragility?: Grade;
  readonly dye_bleed?: 'none' | 'trace_with_detergent' | 'trace_with_water' | 'clear' | 'rubs_off';
  readonly self_destructing?: boolean;
  /** Share of the top's area. */
  readonly share?: number;
  /** Units of this family that are lost; missing ones not included. */
  readonly lost?: number;
}

/** States counted where there is no map; what is not named is sound. `of` is all units (patches on a survey grid). */
type Counts = { readonly of: number } & Partial<Readonly<Record<Exclude<UnitState, 'sound'>, number>>>;

export interface JoinSurvey {
  readonly inspected?: number;
  readonly open?: number;
  readonly thread?: number;
  readonly cloth?: number;
  readonly allowance?: number;
  /** Joins one by one: `C4|C5` side by side, `B2/C2` one above the other. */
  readonly open_at?: readonly {
    readonly between: readonly [string, string];
    readonly cause?: 'thread' | 'cloth' | 'allowance';
  }[];
}

/** What did some of the damage; nobody knows where `why` is absent. */
export interface ToldCause {
  /** Units `B3` and joins `C4|C5` one by one, or all damaged units, or all open joins. */
  readonly places: 'units' | 'joins' | readonly string[];
  /** How many of all of them, where it was not all. */
  readonly count?: number;
  readonly why?: Cause;
}

export interface FurtherMark {
  readonly at: string;
  readonly state: UnitState;
}

export interface Survey {
  readonly seen: 'in hand' | 'photos';
  readonly by?: string;
  readonly on?: string;
  readonly families?: Readonly<Record<string, Family>>;
  /** One row of states for each row of the layout, top first. */
  readonly units?: readonly (readonly UnitState[])[];
  /** Further marks of units that bear more than one; the map holds the gravest. */
  readonly also?: readonly FurtherMark[];
  readonly family_map?: readonly (readonly string[])[];
  readonly counts?: Counts;
  readonly joins?: JoinSurvey;
  readonly causes?: readonly ToldCause[];
  /** What nobody has checked with the quilt in hand yet, each by how it is known; all else is as `seen` says. */
  readonly known_by?: Readonly<Record<string, 'told' | 'photos'>>;
  /** Findings named in the vocabulary, in the vocabulary's own terms (see findings/fact.ts): grades and ordered choices by name here. */
  readonly findings: Readonly<Record<string, number | string | boolean>>;
}

/** A later look: whatever it states overrides what was stated before. */
export interface Resurvey extends Omit<Partial<Survey>, 'findings' | 'known_by'> {
  readonly opened?: boolean;
  readonly findings?: Readonly<Record<string, number | string | boolean>>;
  readonly quilt?: Partial<Quilt>;
}

export interface Expectation {
  readonly standing?: 'go_ahead' | 'not_yet' | 'refer' | 'decline';
  readonly treatment?: Treatment | null;
  readonly because?: readonly string[];
  readonly not_because?: readonly string[];
  readonly provisional?: boolean;
  readonly refused_uses?: readonly Use[];
  /** What is done with units in the plan recommended, each action once. */
  readonly actions?: readonly Action[];
}
