import type { QuiltCase } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';
import { once, remembered } from '../quantities/once.ts';
import { fading } from './fading.ts';
import { holes, piercedAlike } from './holes/holes.ts';
import type { SewingContext } from './holes/sewing.ts';
import { hours } from './hours.ts';
import { type ForecastContext, lifeForecaster } from './life/remaining-life.ts';
import { materials } from './materials/materials.ts';
import type { Circumstances, Estimates } from './model.ts';
import { price, type StudioSettings } from './price.ts';

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
    oldBackingGrade: backing?.fragility,
    sleeve: client.hung,
  };
}

/** What a plan takes to carry out, whatever the cloth then lasts. */
export type Work = Omit<Estimates, 'life' | 'light'>;

/** What the estimates of all plans of one quilt rest on. */
interface Shared {
  readonly forecast: ReturnType<typeof lifeForecaster>;
  readonly light: () => Estimates['light'];
  readonly sewing: SewingContext;
  readonly circumstances: Circumstances;
  readonly studio: StudioSettings;
  readonly figures: Figures;
  /** Holes that are counted already, by what plans that are pierced alike have in common. */
  readonly pierced: Map<string, Estimates['holes']>;
}

/** The work of one plan, each part worked out when first asked for; thousands are made where an answer is questioned. */
class PlanWork implements Work {
  readonly #plan: Plan;
  readonly #shared: Shared;
  #hours: Work['hours'] | undefined;
  #materials: Work['materials'] | undefined;
  #price: Work['price'] | undefined;

  constructor(plan: Plan, shared: Shared) {
    this.#plan = plan;
    this.#shared = shared;
  }

  get holes(): Work['holes'] {
    const { figures, sewing, pierced } = this.#shared;
    return remembered(pierced, piercedAlike(this.#plan), () => holes(this.#plan, figures, sewing));
  }

  get hours(): Work['hours'] {
    this.#hours ??= hours(this.#plan, this.#shared.figures, this.#shared.circumstances);
    return this.#hours;
  }

  get materials(): Work['materials'] {
    this.#materials ??= materials(this.#plan, this.#shared.figures, this.#shared.circumstances);
    return this.#materials;
  }

  get price(): Work['price'] {
    const { studio, figures, circumstances } = this.#shared;
    this.#price ??= price(
      this.#plan,
      this.hours,
      this.materials,
      studio,
      figures,
      circumstances.opened === true,
    );
    return this.#price;
  }
}

class PlanEstimates implements Estimates {
  readonly #plan: Plan;
  readonly #work: Work;
  readonly #shared: Shared;
  #life: Estimates['life'] | undefined;

  constructor(plan: Plan, work: Work, shared: Shared) {
    this.#plan = plan;
    this.#work = work;
    this.#shared = shared;
  }

  get life(): Estimates['life'] {
    this.#life ??= this.#shared.forecast(this.#plan, this.#work.holes);
    return this.#life;
  }

  get light(): Estimates['light'] {
    return this.#shared.light();
  }

  get holes(): Estimates['holes'] {
    return this.#work.holes;
  }

  get hours(): Estimates['hours'] {
    return this.#work.hours;
  }

  get materials(): Estimates['materials'] {
    return this.#work.materials;
  }

  get price(): Estimates['price'] {
    return this.#work.price;
  }
}
