import type { QuiltCase } from '../casebook/model.ts';
import type { Plan } from '../plans/model.ts';
import { once } from '../quantities/once.ts';
import { fading } from './fading.ts';
import { holes } from './holes/holes.ts';
import type { SewingContext } from './holes/sewing.ts';
import { hours } from './hours.ts';
import { type ForecastContext, lifeForecaster } from './life/forecaster.ts';
import { materials } from './materials/materials.ts';
import type { Estimates } from './model.ts';
import { price } from './price.ts';
import type { StudioSettings } from './studio.ts';

/** What every plan of one quilt is estimated from. `latest` is the case as its latest looks leave it. */
export interface EstimateContext extends Omit<ForecastContext, 'latest'> {
  readonly latest: QuiltCase;
  readonly studio: StudioSettings;
}

/**
 * Estimates for all plans of one quilt, in their order, each worked out when first asked for: rules and ranking ask
 * for few of them. Life posteriors are worked out once and shared.
 */
export function estimatePlans(plans: readonly Plan[], context: EstimateContext): Estimates[] {
  const { latest, figures, studio } = context;
  const forecast = lifeForecaster(context);
  const sewing: SewingContext = sewingContext(latest);
  const light = once(() => fading(context.use, context.directLight, figures));
  const circumstances = { found: latest.quilt, hung: latest.client.hung, system: studio.units };
  return plans.map((plan) => {
    const punctures = once(() => holes(plan, figures, sewing));
    const stuff = once(() => materials(plan, figures, circumstances));
    const work = once(() => hours(plan, figures, circumstances));
    const life = once(() => forecast(plan, punctures()));
    const cost = once(() => price(plan, work(), stuff(), studio, figures));
    return {
      get life() {
        return life();
      },
      get holes() {
        return punctures();
      },
      get hours() {
        return work();
      },
      get materials() {
        return stuff();
      },
      get light() {
        return light();
      },
      get price() {
        return cost();
      },
    };
  });
}

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
