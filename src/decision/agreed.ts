import type { QuiltCase, RecordedDecision } from '../casebook/model.ts';
import type { Treatment } from '../casebook/scales.ts';
import type { Rule } from '../rulebook/model.ts';
import { alternatives } from './alternatives.ts';
import { type Held, isGrave, isStop, rulesAgainst } from './choice.ts';
import { recommendedOption } from './settled.ts';
import type { Option } from './situation.ts';

/** A recorded decision for one of the treatments, whoever took it. */
type Taken = RecordedDecision & { readonly chosen: Treatment };

const isTaken = (entry: RecordedDecision): entry is Taken => entry.chosen !== undefined;

/** What was chosen last by a day, by the client or by the practitioner; undefined where nobody has chosen. */
export const lastChosen = ({ decisions = [] }: QuiltCase, asOf: string): Taken | undefined =>
  decisions.filter(isTaken).findLast(({ on }) => on <= asOf);

/** A plan, by its place among those of the situation. */
export interface Agreed {
  readonly index: number;
  readonly option: Option;
}

/** The best plan of what was chosen. */
export interface Chosen extends Agreed {
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
  const index = alternatives(situation, outcome).find(({ treatment }) => treatment === last.chosen)?.option;
  const option = index === undefined ? undefined : situation.options[index];
  if (index === undefined || option === undefined) return undefined;
  const weighed = last.overrides ?? [];
  const unweighed = rulesAgainst(last.chosen, held).filter(
    (rule) => isStop(rule) || (isGrave(rule) && !weighed.includes(rule.id)),
  );
  return { index, option, on: last.on, unweighed };
}

/** The treatment carried out, as recorded or chosen; undefined where it was the one recommended. */
export const treatmentDone = (quiltCase: QuiltCase, asOf: string): Treatment | undefined =>
  quiltCase.completed?.treatment ?? lastChosen(quiltCase, quiltCase.completed?.on ?? asOf)?.chosen;

/** The plan the work goes by: what was chosen last, where that still stands, else the recommendation; none where there is neither. */
export function agreedOption(held: Held): Agreed | undefined {
  const chosen = chosenInstead(held);
  return chosen?.unweighed.length === 0 ? chosen : recommendedOption(held);
}
