import type { QuiltCase } from '../../casebook/model.ts';
import type { Use } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import type { Plan } from '../../plans/model.ts';
import { oncePer } from '../../quantities/once.ts';
import type { HoleEstimate } from '../model.ts';
import type { LifeContext } from './context.ts';
import { lifeInputs } from './elements.ts';
import type { RemainingLife } from './model.ts';
import { type LifeModel, lifeModel } from './remaining-life.ts';

/** What every plan of one quilt is forecast from. */
export interface ForecastContext {
  readonly latest: Pick<QuiltCase, 'history' | 'client'>;
  readonly use: Use;
  readonly directLight: boolean | undefined;
  readonly washing: LifeContext['washing'];
  readonly ageYears: number | undefined;
  /** The vocabulary's chances of each grade, best first. */
  readonly gradeOdds?: readonly number[] | undefined;
  readonly figures: Figures;
}

/** Remaining life of each plan; evidence is weighed once and shared by all of them. */
export function lifeForecaster(context: ForecastContext): (plan: Plan, holes: HoleEstimate) => RemainingLife {
  const { latest, figures, use, ageYears, washing, directLight, gradeOdds } = context;
  const { history, client } = latest;
  const wantedYears = client.wanted_years;
  const input = lifeInputs({ use, history, ageYears, washing, directLight, wantedYears, gradeOdds }, figures);
  const model = modelOf(figures);
  return (plan, { perforation }) => model.remainingLife(input(plan, perforation));
}

/** One model for each set of figures: what it has weighed for one quilt serves every variant of it that is asked about. */
const modelOf = oncePer((figures: Figures): LifeModel => lifeModel(figures));
