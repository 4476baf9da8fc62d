import type { Quilt, QuiltCase } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';
import { memo, memoize } from '../quantities/memo.ts';
import { fading } from './fading.ts';
import { holes } from './holes/holes.ts';
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

/** Estimators for all plans of one quilt, in their order. What plans have in common is worked out once. */
export function estimatorsOf(plans: readonly Plan[], context: EstimateContext): Estimator[] {
  const { latest, figures, studio } = context;
  const forecast = lifeForecaster(context);
  const light = memoize(() => fading(context.use, context.directLight, figures));
  const { quilt, client } = latest;
  const works = worksOf({ plans, quilt, hung: client.hung, opened: hasBeenOpened(latest), studio, figures });
  return works.map((work) => new Estimator(work, forecast, light));
}

const hasBeenOpened = ({ survey, resurveys }: QuiltCase): boolean =>
  survey.findings.opened === true || resurveys.some(({ opened }) => opened === true);

function sewingContext(quilt: Quilt, sleeve: boolean | undefined): SewingContext {
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
    sleeve,
  };
}

/** What the work of all plans of one quilt rests on. */
interface ToWork {
  readonly plans: readonly Plan[];
  /** As found. */
  readonly quilt: Quilt;
  readonly hung: boolean | undefined;
  readonly opened: boolean;
  readonly studio: StudioSettings;
  readonly figures: Figures;
}

// Without it the questions of three cases take 17 % more processor time.
const worksOf = memo(16, ({ plans, quilt, hung, opened, studio, figures }: ToWork): readonly Work[] => {
  const { units: system } = studio;
  const shared: Shared = {
    sewing: { ...sewingContext(quilt, hung), system },
    circumstances: { found: quilt, hung, opened, system },
    studio,
    figures,
  };
  return plans.map((plan) => new Work(plan, shared));
});

interface Shared {
  readonly sewing: SewingContext;
  readonly circumstances: Circumstances;
  readonly studio: StudioSettings;
  readonly figures: Figures;
}

/** What a plan takes to carry out, whatever the cloth then lasts: each part worked out when first asked for. */
class Work {
  readonly plan: Plan;
  readonly #shared: Shared;
  #holes: Estimates['holes'] | undefined;
  #hours: Estimates['hours'] | undefined;
  #materials: Estimates['materials'] | undefined;
  #price: Estimates['price'] | undefined;

  constructor(plan: Plan, shared: Shared) {
    this.plan = plan;
    this.#shared = shared;
  }

  holes(): Estimates['holes'] {
    this.#holes ??= holes(this.plan, this.#shared.figures, this.#shared.sewing);
    return this.#holes;
  }

  hours(): Estimates['hours'] {
    this.#hours ??= hours(this.plan, this.#shared.figures, this.#shared.circumstances);
    return this.#hours;
  }

  materials(): Estimates['materials'] {
    this.#materials ??= materials(this.plan, this.#shared.figures, this.#shared.circumstances);
    return this.#materials;
  }

  price(): Estimates['price'] {
    const { studio, figures, circumstances } = this.#shared;
    this.#price ??= price(
      this.plan,
      this.hours(),
      this.materials(),
      studio,
      figures,
      circumstances.opened === true,
    );
    return this.#price;
  }
}

/**
 * Answers for the estimates of one plan. A hundred plans are compared and few of them on everything, so each part is
 * worked out when rules, ranking or papers call for it by name.
 */
export class Estimator {
  readonly #work: Work;
  readonly #forecast: ReturnType<typeof lifeForecaster>;
  readonly #light: () => Estimates['light'];
  #life: Estimates['life'] | undefined;

  constructor(work: Work, forecast: ReturnType<typeof lifeForecaster>, light: () => Estimates['light']) {
    this.#work = work;
    this.#forecast = forecast;
    this.#light = light;
  }

  holes(): Estimates['holes'] {
    return this.#work.holes();
  }

  hours(): Estimates['hours'] {
    return this.#work.hours();
  }

  materials(): Estimates['materials'] {
    return this.#work.materials();
  }

  price(): Estimates['price'] {
    return this.#work.price();
  }

  life(): Estimates['life'] {
    this.#life ??= this.#forecast(this.#work.plan, this.holes());
    return this.#life;
  }

  /** Everything, as plain data. */
  estimates(): Estimates {
    return {
      holes: this.holes(),
      life: this.life(),
      light: this.#light(),
      hours: this.hours(),
      materials: this.materials(),
      price: this.price(),
    };
  }
}
