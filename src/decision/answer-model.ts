import type { Action, Hazard, Treatment, Use } from '../casebook/scales.ts';
import type { Evidence } from '../figures/model.ts';
import type { Range } from '../quantities/range.ts';
import type { RuleGroup, Standing } from '../rulebook/model.ts';

/** What `mendwise decide CASE --json` prints: the shape is a contract with scripts and documents. */
export interface Answer {
  readonly schema: 'mendwise/decision@1';
  readonly case: string;
  readonly as_of: string;
  readonly rulebook: { readonly version: string; readonly digest: string };
  readonly standing: Standing;
  readonly treatment: Treatment | null;
  /** True where something not yet known could still change standing or treatment. */
  readonly provisional: boolean;
  readonly plan: AnswerPlan | null;
  readonly refused_uses: readonly Use[];
  /** Those for this answer first (`forAnswer`); the others had a part in the plan alone. */
  readonly reasons: readonly Reason[];
  /** What settled it where no rule told the recommendation from the next best treatment; null where one did. */
  readonly settled_by: SettledBy | null;
  readonly rather_than: readonly RatherThan[];
  readonly would_change: readonly WouldChange[] | null;
  readonly check_next: readonly CheckNext[] | null;
  readonly holds_in: HoldsIn | null;
  readonly estimates: AnswerEstimates | null;
  readonly options: readonly AnswerOption[];
  readonly offers: readonly RuleText[];
  /** Whom else to ask, for reasons other than a hazard. */
  readonly ask_others: readonly RuleText[];
  readonly cautions: readonly Caution[];
  readonly conditions: readonly RuleText[];
  /** What changed since an estimate was approved; null where none was. */
  readonly since_approval: SinceApproval | null;
  /** What was chosen last, where that is another way than the recommendation; null where nothing was. */
  readonly chosen: ChosenWay | null;
  /** Findings not known that could still change standing or treatment, as the rules left open show. */
  readonly open: readonly OpenFinding[];
  /** Questions to put to the client before work begins. */
  readonly asks: readonly RuleText[];
  readonly safety: Safety;
}

/** A sentence and the rule it comes from. */
export interface RuleText {
  readonly rule: string;
  readonly text: string;
}

/** A caution, and whom it is for: those who live with the quilt, those who work on it, or both. */
export interface Caution extends RuleText {
  readonly for: 'home' | 'workroom' | 'both';
  /** True for what is said beside the advice itself. */
  readonly first: boolean;
}

/** What stands in the way of touching the quilt at all: hazards found, and questions on safety nobody has answered. */
export interface Safety {
  /** Stops for a hazard, in the order of the rules: what to do now, who settles it and how, who else to ask. */
  readonly stops: readonly SafetyStop[];
  /** Questions on safety never answered: no work order, no deposit and no agreement while there are any. */
  readonly unanswered: readonly { readonly finding: string; readonly label: string }[];
  /** What to do with the quilt until they are answered. */
  readonly until_answered: readonly string[];
}

export interface SafetyStop {
  readonly rule: string;
  readonly hazard: Hazard;
  readonly meanwhile: string | null;
  readonly settled_by: string | null;
  readonly ask_others: string | null;
}

/** A way taken against the advice, or beside it: what it would do, and what our rules say of it. */
export interface ChosenWay extends Way {
  readonly on: string;
  /**
   * Stops, and referrals and limits of the cloth that the choice was not weighed against. While there are any, it does
   * not stand: it has to be chosen anew.
   */
  readonly unweighed: readonly RuleText[];
}

/** A way to go with all that is said of it. */
export interface Way {
  readonly treatment: Treatment;
  readonly plan: AnswerPlan;
  readonly estimates: AnswerEstimates;
  readonly cautions: readonly Caution[];
  readonly conditions: readonly RuleText[];
  readonly asks: readonly RuleText[];
}

/** What became of an estimate the client approved: figures, findings and reasons, then and now. */
export interface SinceApproval {
  readonly approved_on: string | null;
  /** The answer on the quilt as it was known when the estimate was approved, by the same rules as the answer itself. */
  readonly as_approved: { readonly standing: Standing; readonly treatment: Treatment | null };
  /**
   * Likely hours and price against what was approved; `rise` is a share of what was approved. Null where that figure
   * was not approved, or no work is offered any more.
   */
  readonly hours: { readonly approved: number; readonly now: number; readonly rise: number } | null;
  readonly price: { readonly approved: number; readonly now: number; readonly rise: number } | null;
  readonly needs_approval: boolean;
  /** The rise beyond which new approval is asked for. */
  readonly mark: number;
  readonly changed: readonly {
    readonly finding: string;
    readonly label: string;
    readonly from: string;
    readonly to: string;
  }[];
  /** Reasons of the answer that were not there then, and those of then that are no longer there. */
  readonly gained: readonly Reason[];
  readonly lost: readonly Reason[];
}

export interface OpenFinding {
  readonly finding: string;
  readonly label: string;
  /** Rules that wait for it. */
  readonly rules: readonly string[];
}

export interface AnswerPlan {
  readonly actions: Readonly<
    Partial<
      Record<
        Action,
        {
          readonly units: number;
          readonly where: readonly string[] | null;
          readonly families: readonly string[];
        }
      >
    >
  >;
  readonly backing: string;
  readonly batting: string;
  readonly new_batting: string | null;
  readonly joining: string;
  readonly pattern: string;
  readonly directions: string;
  readonly gap_after: string;
  readonly sewn_by: string;
  readonly joins_resewn: number;
  /** How those seams are sewn: by hand where the quilt stays closed, whatever else a machine does. */
  readonly resewn_by: string;
  readonly opens: boolean;
}

interface ReasonFinding {
  readonly finding: string;
  readonly value: string;
  readonly test: string;
  readonly threshold: string | null;
}

export interface Reason {
  readonly rule: string;
  readonly title: string;
  readonly stage: RuleGroup;
  readonly effect: string;
  readonly because: string;
  readonly evidence: Evidence;
  readonly source: string;
  /** True where, without this rule, standing or treatment would be another. */
  readonly deciding: boolean;
  /** True where it decides, or is what `rather_than` holds against another treatment: it sets this answer apart. */
  readonly for_answer: boolean;
  readonly findings: readonly ReasonFinding[];
}

/** A step below the rules on which the recommendation comes before the next best treatment. */
export interface SettledBy {
  readonly step: 'work' | 'wanted years' | 'new holes' | 'price' | 'order of treatments';
  readonly rather_than: Treatment;
  readonly sentence: string;
}

export interface RatherThan {
  readonly treatment: Treatment;
  readonly outcome: 'ruled_out' | 'ranked_lower' | 'not_offered';
  /** One sentence with the figures. */
  readonly sentence: string;
  readonly reasons: readonly Reason[];
}

export interface WouldChange {
  readonly changes: readonly {
    readonly finding: string;
    readonly label: string;
    readonly from: string;
    readonly to: string;
  }[];
  readonly standing: Standing;
  readonly treatment: Treatment | null;
  readonly who: 'client' | 're-check';
}

export interface CheckNext {
  readonly finding: string;
  readonly label: string;
  readonly how: string;
  /** Share of the plausible answers that change standing or treatment. */
  readonly power: number;
  readonly could_lead_to: readonly {
    readonly value: string;
    readonly standing: Standing;
    readonly treatment: Treatment | null;
  }[];
}

export interface HoldsIn {
  readonly of: number;
  readonly same: number;
  /** Of those that differ, how many turn on what was not known: with that left open the answer would be the same. */
  readonly unknown: number;
  readonly otherwise: readonly {
    readonly standing: Standing;
    readonly treatment: Treatment | null;
    readonly times: number;
  }[];
}

export interface AnswerEstimates {
  readonly life_years: {
    readonly low: number;
    readonly middle: number;
    readonly high: number;
    readonly horizon: number;
    readonly weakest_link: string;
    readonly use: string;
  };
  readonly holes: {
    readonly new_old_face: number;
    readonly new_old_allowance: number;
    readonly new_old_backing: number;
    readonly reused: number;
    readonly new_cloth: number;
    readonly inherited: number;
    readonly perforation: number;
    /** Where most of those in the top fall: a row of the map, or one fabric; null where that cannot be told. */
    readonly most: { readonly where: string; readonly count: number } | null;
    /** Holes in the top of a plain hand-quilted quilt of this size. */
    readonly plain_quilt: number;
  };
  readonly hours: Range;
  readonly price: Range & {
    readonly currency: string;
    readonly floor: number;
    readonly deposit: number;
    readonly hold_point: boolean;
  };
  readonly materials: readonly {
    readonly what: string;
    readonly amount: number;
    readonly unit: string;
    readonly note: string | null;
  }[];
  /** What light does on display; null for every other use. Years of being up all the time until a fade just shows. */
  readonly light: {
    readonly lux_hours_per_year: Range;
    readonly years_to_fade: { readonly with_uv: Range; readonly uv_blocked: Range };
    readonly rotated: {
      readonly share: number;
      readonly years_to_fade: { readonly with_uv: Range; readonly uv_blocked: Range };
    };
  } | null;
  readonly assumptions: readonly string[];
}

export interface AnswerOption {
  readonly treatment: Treatment;
  readonly outcome: 'recommended' | 'possible' | 'ruled_out' | 'not_offered';
  readonly plan: AnswerPlan;
  readonly estimates: AnswerEstimates;
  readonly for: readonly RuleText[];
  readonly against: readonly RuleText[];
}

/** What everybody asks an answer for first: its standing and its treatment. */
export interface Recommendation {
  readonly standing: Standing;
  readonly treatment: Treatment | null;
}

export const sameRecommendation = (a: Recommendation, b: Recommendation): boolean =>
  a.standing === b.standing && a.treatment === b.treatment;
