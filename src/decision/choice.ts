import type { QuiltCase, RecordedDecision } from '../casebook/model.ts';
import type { Treatment } from '../casebook/scales.ts';
import type { Problem } from '../problems/problem.ts';
import type { Rule } from '../rulebook/model.ts';
import { alternatives } from './alternatives.ts';
import { recommendedOption, type Settled } from './outcome.ts';
import type { PlacedOption } from './situation.ts';

/** Somebody's wish to do otherwise than recommended. */
interface Choice {
  readonly treatment: Treatment;
  readonly because: string | undefined;
  readonly riskNote: string | undefined;
}

/** What a choice is held against. */
type Held = Pick<Settled, 'situation' | 'outcome' | 'stops'>;

/** Rules that speak against a treatment here, each once. */
export function rulesAgainst(treatment: Treatment, { situation, outcome, stops }: Held): Rule[] {
  const own = alternatives(situation, outcome).find((each) => each.treatment === treatment);
  const against = [
    // A stop stands even where the rules have left no plan, and the answer is to decline for that.
    ...stops,
    ...outcome.standingRules,
    ...(own?.planOutcome.removedBy ?? []),
    ...(own?.outcome === 'possible' ? own.reasons.map(({ rule }) => rule) : []),
  ];
  return [...new Set(against)];
}

/** Nothing sets a stop aside. */
const isStop = ({ group }: Rule): boolean => group === 'stop';

/** A referral, or what the cloth can bear: set aside only with a note of what is risked. */
const isGrave = ({ group }: Rule): boolean => group === 'refer' || group === 'capability';

/**
 * The rules a choice goes against, or why it cannot be made: stops cannot be set aside; against a referral, or against
 * what the cloth can bear, it wants a risk note; it always wants a reason.
 */
export function overridesOf(
  choice: Choice,
  held: Held,
): { overrides: readonly Rule[] } | { problems: Problem[] } {
  const overrides = rulesAgainst(choice.treatment, held);
  const stops = overrides.filter(isStop);
  const grave = overrides.filter(isGrave);
  const problems: Problem[] = [];
  for (const rule of stops) {
    problems.push({
      code: 'stop-stands',
      severity: 'error',
      what: `"${choice.treatment}" cannot be chosen while "${rule.title.toLowerCase()}" holds`,
    });
  }
  if (choice.because === undefined)
    problems.push({ code: 'reason-wanted', severity: 'error', what: 'The choice has no reason' });
  if (grave.length > 0 && choice.riskNote === undefined && stops.length === 0) {
    const titles = grave.map(({ title }) => `"${title.toLowerCase()}"`).join(' and ');
    problems.push({ code: 'risk-note-wanted', severity: 'error', what: `The choice goes against ${titles}` });
  }
  return problems.length > 0 ? { problems } : { overrides };
}

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
interface Chosen extends PlacedOption {
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
