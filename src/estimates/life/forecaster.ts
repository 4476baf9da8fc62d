import type { QuiltCase } from '../../casebook/model.ts';
import type { Use } from '../../findings/scales.ts';
import type { Plan } from '../../plans/model.ts';
import type { Figures } from '../../rulebook/figures-model.ts';
import type { HoleEstimate } from '../model.ts';
import type { LifeContext } from './context.ts';
import { lifeInput } from './elements.ts';
import type { RemainingLife } from './model.ts';
import { lifeModel } from './remaining-life.ts';

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
  const model = lifeModel(figures);
  return (plan, { perforation }) => {
    const { history, client } = latest;
    const wantedYears = client.wanted_years;
    const given = { use, history, ageYears, washing, directLight, perforation, wantedYears, gradeOdds };
    return model.remainingLife(lifeInput(plan, given, figures));
  };
}
