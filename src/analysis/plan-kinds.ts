import { TREATMENTS } from '../casebook/scales.ts';
import type { Facts } from '../findings/fact.ts';
import { opensQuilt } from '../plans/candidates.ts';
import { type FoundLayers, SPECS } from '../plans/treatments.ts';
import type { Test } from '../rulebook/model.ts';

/** One way a plan can be specified on one kind of quilt. Its facts hang together, so they are never chosen apart. */
export interface PlanKind {
  readonly layers: FoundLayers;
  /** What the layers are known as, and the plan's specification. */
  readonly facts: Facts;
}

const BATTINGS: readonly FoundLayers['batting'][] = ['none', 'loose', 'bonded', 'needled', 'unknown'];
const BACKINGS: readonly FoundLayers['backing'][] = ['own', 'none', 'unknown'];

const known = (kind: string): string | undefined => (kind === 'unknown' ? undefined : kind);

const kindsOn = (layers: FoundLayers): PlanKind[] => {
  const seen = new Map<string, PlanKind>();
  for (const spec of TREATMENTS.flatMap((treatment) => SPECS[treatment](layers))) {
    const facts: Facts = {
      'finding.batting_kind': known(layers.batting),
      'finding.backing_kind': known(layers.backing),
      'plan.treatment': spec.treatment,
      'plan.joining': spec.joining,
      'plan.backing': spec.backing,
      'plan.batting': spec.batting,
      'plan.sewn_by': spec.sewnBy,
      'plan.directions': spec.directions,
      'plan.pattern': spec.pattern,
      'plan.opens': opensQuilt(spec, layers.batting !== 'none'),
    };
    seen.set(JSON.stringify(facts), { layers, facts });
  }
  return [...seen.values()];
};

/** Plan kinds by quilt: one list for each combination of filling and backing a quilt can have. */
export const PLAN_KINDS: readonly (readonly PlanKind[])[] = BATTINGS.flatMap((batting) =>
  BACKINGS.map((backing) => kindsOn({ batting, backing })),
);

const SPECIFIED: ReadonlySet<string> = new Set(Object.keys(PLAN_KINDS[0]?.[0]?.facts ?? {}));

/** Subjects whose value a plan kind fixes. */
export const isSpecified = (key: string): boolean => SPECIFIED.has(key);

/** Subjects that a plan's estimates give, or the cloth it enters: each plan of one quilt may have its own. */
export const isEstimated = (test: Test): boolean =>
  (test.subject === 'plan' || test.key === 'finding.line_fragility') && !isSpecified(test.key);
