import type { Grade } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import type { Plan } from '../../plans/model.ts';
import type { MeasureSystem } from '../../quantities/measure.ts';
import type { PlannedTop } from './planned-top.ts';

/** What is known of the old work beside the plan; whatever is absent is unknown and the figures' usual holds. */
export interface SewingContext {
  /** As counted on the top of the original seams. */
  readonly originalStitchesPerInch?: number | undefined;
  readonly piecing?: 'hand' | 'machine' | undefined;
  readonly oldFastenings?:
    | {
        readonly kind: 'none' | 'ties' | 'lines' | 'all_over';
        /** Widest distance between them in inches. */
        readonly gap?: number | undefined;
        /** Share of them put back through their own holes, where the plan does that. */
        readonly restored?: number | undefined;
      }
    | undefined;
  /** Whether an old backing is there to be pierced; by default where the plan keeps one. */
  readonly oldBacking?: boolean | undefined;
  readonly oldBackingGrade?: Grade | undefined;
  readonly sleeve?: boolean | undefined;
  /** Measures in assumptions; inches unless given. */
  readonly system?: MeasureSystem | undefined;
}

export type Layer = 'face' | 'allowance' | 'backing' | 'new cloth';

/** Holes in one layer. `reused` of them enter an old hole. */
export interface Punctures {
  readonly layer: Layer;
  readonly holes: number;
  readonly reused: number;
  /** For old cloth of the top: how the holes fall on the units, in any proportion; evenly where absent or empty. */
  readonly over?: () => ReadonlyMap<string, number>;
}

/** One operation of a plan and every hole it makes, all cloth counted. */
export interface Sewing {
  readonly operation: string;
  /** Inches sewn, or number of ties, tacks or pins. */
  readonly amount: number;
  readonly unit: 'in' | 'pieces';
  readonly punctures: readonly Punctures[];
  /** Share of the line's length taken by holes; 0 for separate points and where no old cloth is entered. */
  readonly perforation: number;
  /** Holes in remaining old cloth whose stitches this operation takes out. */
  readonly removed: number;
  readonly assumptions: readonly string[];
}

/** What every operation is worked out from. */
export interface Job {
  readonly plan: Plan;
  readonly figures: Figures;
  readonly context: SewingContext;
  readonly tops: PlannedTop;
}

/** Backing layers a needle through the whole quilt meets. */
export const backings = ({ plan, context }: Job): { readonly old: boolean; readonly fresh: boolean } => ({
  old: (plan.backing === 'keep' || plan.backing === 'add') && (context.oldBacking ?? plan.backing === 'keep'),
  fresh: plan.backing === 'add' || plan.backing === 'replace',
});

/** The same holes on the back, layer by layer, for stitches that go through everything. */
export const throughTheBack = (job: Job, holes: number, reusedShare: number): readonly Punctures[] => {
  const { old, fresh } = backings(job);
  return [
    ...(old ? [{ layer: 'backing', holes, reused: holes * reusedShare } as const] : []),
    ...(fresh ? [{ layer: 'new cloth', holes, reused: 0 } as const] : []),
  ];
};

/** What is worked out of a job from its quilt and what is done with the units: once for all plans that share both. */
export type Layout = Pick<Job, 'tops'> & { readonly plan: Pick<Plan, 'quilt' | 'actions'> };

export function oncePerTop<T>(work: (job: Layout) => T): (job: Layout) => T {
  const kept = new WeakMap<PlannedTop, { readonly value: T }>();
  return ({ tops, plan: { quilt, actions } }) => {
    const known = kept.get(tops) ?? { value: work({ tops, plan: { quilt, actions } }) };
    kept.set(tops, known);
    return known.value;
  };
}
