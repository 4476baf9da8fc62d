import type { QuiltCase, RecordedDecision } from '../casebook/model.ts';
import type { Treatment } from '../casebook/scales.ts';
import type { Rule } from '../rulebook/model.ts';
import { alternatives } from './alternatives.ts';
import { type Held, isGrave, isStop, rulesAgainst } from './choice.ts';
import { recommendedOption } from './settled.ts';
import type { PlacedOption } from './situation.ts';

/** A recorded choice of a treatment, by the client or against the advice. */
type Taken = RecordedDecision & { readonly chosen: Treatment };

const isTaken = (entry: RecordedDecision): entry is Taken =>
  entry.chosen !== undefined && entry.kind !== 'recommended';

/** Choices that hold on a day: those after the last time the advice was followed, oldest first. */
export const choicesIn = ({ decisions = [] }: QuiltCase, asOf: string): readonly Taken[] => {
  const known = decisions.filter(({ on }) => on <= asOf);
  return known.slice(known.findLastIndex((entry) => !isTaken(entry)) + 1).filter(isTaken);
};

/** The last of them; undefined where nobody has chosen, or the advice was followed since. */
export const lastChosen = (quiltCase: QuiltCase, asOf: string): Taken | undefined =>
  choicesIn(quiltCase, asOf).at(-1);

/** The best plan of what was chosen. */
export interface Chosen extends PlacedOption {
  readonly on: string;
  /**
   * Stops, and referrals and limits of the cloth that the choice was not weighed against: found since, or by rules made
   * since. While there are any, it has to be chosen anew.
   */
  readonly unweighed: readonly Rule[];
}

/** What was chosen last, where that is another treatment than the one recommended. */
export function chosenInstead(held: Held): Chosen | undefined {
  const { situation, outcome } = held;
  const last = lastChosen(situation.quiltCase, situation.asOf);
  if (last === undefined || last.chosen === outcome.treatment) return undefined;
  const best = bestPlan(last.chosen, held);
  if (best === undefined) return undefined;
  const weighed = last.overrides ?? [];
  const unweighed = rulesAgainst(last.chosen, held).filter(
    (rule) => isStop(rule) || (isGrave(rule) && !weighed.includes(rule.id)),
  );
  return { ...best, on: last.on, unweighed };
}

/** The plan the work goes by: what was chosen last, where that still stands, else the recommendation; none where there is neither. */
export function agreedOption(held: Held): PlacedOption | undefined {
  const chosen = chosenInstead(held);
  return chosen?.unweighed.length === 0 ? chosen : recommendedOption(held);
}

/** The best plan of what was carried out, once it is: as recorded, else as chosen by then, else as recommended. */
export function doneOption({ situation, outcome }: Held, asOf: string): PlacedOption | undefined {
  const { completed } = situation.quiltCase;
  if (completed === undefined || completed.on > asOf) return undefined;
  const treatment =
    completed.treatment ?? lastChosen(situation.quiltCase, completed.on)?.chosen ?? outcome.preferred;
  return treatment === undefined ? undefined : bestPlan(treatment, { situation, outcome });
}

/** The best there is of a treatment, whatever the rules say of it. */
function bestPlan(
  treatment: Treatment,
  { situation, outcome }: Pick<Held, 'situation' | 'outcome'>,
): PlacedOption | undefined {
  const index = alternatives(situation, outcome).find((each) => each.treatment === treatment)?.option;
  const option = index === undefined ? undefined : situation.options[index];
  return index === undefined || option === undefined ? undefined : { index, option };
}
