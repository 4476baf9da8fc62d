import type { QuiltCase } from '../casebook/model.ts';
import type { Treatment } from '../casebook/scales.ts';
import { alternatives } from './alternatives.ts';
import { recommendedOption, type Settled } from './settled.ts';
import type { Option } from './situation.ts';

/** What was chosen last by a day, by the client or by the practitioner; undefined where nobody has chosen. */
export const lastChosen = ({ decisions = [] }: QuiltCase, asOf: string): Treatment | undefined =>
  decisions.findLast(({ chosen, on }) => chosen !== undefined && on <= asOf)?.chosen;

/** A plan, by its place among those of the situation. */
export interface Agreed {
  readonly index: number;
  readonly option: Option;
}

/** The best plan of what was chosen last, where that is another treatment than the one recommended. */
export function chosenInstead(settled: Pick<Settled, 'situation' | 'outcome'>): Agreed | undefined {
  const { situation, outcome } = settled;
  const treatment = lastChosen(situation.quiltCase, situation.asOf);
  if (treatment === undefined || treatment === outcome.treatment) return undefined;
  const index = alternatives(situation, outcome).find((each) => each.treatment === treatment)?.option;
  const option = index === undefined ? undefined : situation.options[index];
  return index === undefined || option === undefined ? undefined : { index, option };
}

/** The plan the work goes by: what was chosen last, else the recommendation; none where there is neither. */
export const agreedOption = (settled: Pick<Settled, 'situation' | 'outcome'>): Agreed | undefined =>
  chosenInstead(settled) ?? recommendedOption(settled);
