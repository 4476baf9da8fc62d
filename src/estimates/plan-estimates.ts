import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';
import { remembered } from '../quantities/once.ts';
import type { Circumstances } from './circumstances.ts';
import { holes } from './holes/holes.ts';
import { piercedAlike } from './holes/pierced-alike.ts';
import type { SewingContext } from './holes/sewing.ts';
import { hours } from './hours.ts';
import type { lifeForecaster } from './life/forecaster.ts';
import { materials } from './materials/materials.ts';
import type { Estimates } from './model.ts';
import { price } from './price.ts';
import type { StudioSettings } from './studio.ts';

/** What a plan takes to carry out, whatever the cloth then lasts. */
export type Work = Omit<Estimates, 'life' | 'light'>;

/** What the estimates of all plans of one quilt rest on. */
export interface Shared {
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
export class PlanWork implements Work {
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

export class PlanEstimates implements Estimates {
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
