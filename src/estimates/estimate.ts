import type { QuiltCase } from '../casebook/model.ts';
import type { Plan } from '../plans/model.ts';
import { once } from '../quantities/once.ts';
import { fading } from './fading.ts';
import type { SewingContext } from './holes/sewing.ts';
import { type ForecastContext, lifeForecaster } from './life/forecaster.ts';
import type { Estimates } from './model.ts';
import { PlanEstimates, PlanWork, type Shared, type Work } from './plan-estimates.ts';
import type { StudioSettings } from './studio.ts';

/** What every plan of one quilt is estimated from. `latest` is the case as its latest looks leave it. */
export interface EstimateContext extends Omit<ForecastContext, 'latest'> {
  readonly latest: QuiltCase;
  readonly studio: StudioSettings;
}

/**
 * Estimates for all plans of one quilt, in their order, each worked out when first asked for: rules and ranking ask
 * for few of them. Life posteriors are worked out once and shared. `known` gives the work of plans that is worked out
 * already, by their ids.
 */
export function estimatePlans(
  plans: readonly Plan[],
  context: EstimateContext,
  known: ReadonlyMap<string, Work> = new Map(),
): Estimates[] {
  const { latest, figures, studio } = context;
  const forecast = lifeForecaster(context);
  const sewing: SewingContext = { ...sewingContext(latest), system: studio.units };
  const light = once(() => fading(context.use, context.directLight, figures));
  const opened = hasBeenOpened(latest);
  const circumstances = { found: latest.quilt, hung: latest.client.hung, opened, system: studio.units };
  const pierced: Shared['pierced'] = new Map();
  const shared: Shared = { forecast, light, sewing, circumstances, studio, figures, pierced };
  return plans.map(
    (plan) => new PlanEstimates(plan, known.get(plan.id) ?? new PlanWork(plan, shared), shared),
  );
}

const hasBeenOpened = ({ survey, resurveys }: QuiltCase): boolean =>
  survey.findings.opened === true || resurveys.some(({ opened }) => opened === true);

function sewingContext({ quilt, client }: QuiltCase): SewingContext {
  const { joining, sewn, backing } = quilt;
  return {
    originalStitchesPerInch: sewn?.stitches_per_inch,
    piecing: sewn?.piecing,
    oldFastenings:
      joining?.kind === undefined
        ? undefined
        : { kind: joining.kind, gap: joining.gap, restored: joining.missing },
    oldBacking:
      backing?.kind === undefined || backing.kind === 'unknown' ? undefined : backing.kind === 'own',
    sleeve: client.hung,
  };
}
