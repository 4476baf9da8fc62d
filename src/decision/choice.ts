import type { Treatment } from '../casebook/scales.ts';
import type { Problem } from '../problems/problem.ts';
import type { Rule } from '../rulebook/model.ts';
import { alternatives } from './alternatives.ts';
import type { Settled } from './settled.ts';

/** Somebody's wish to do otherwise than recommended. */
export interface Choice {
  readonly treatment: Treatment;
  readonly because: string | undefined;
  readonly riskNote: string | undefined;
}

/** What a choice is held against. */
export type Held = Pick<Settled, 'situation' | 'outcome' | 'stops'>;

/** Rules that speak against a treatment here, each once. */
export function rulesAgainst(treatment: Treatment, { situation, outcome, stops }: Held): Rule[] {
  const own = alternatives(situation, outcome).find((each) => each.treatment === treatment);
  const against = [
    // A stop stands even where the rules have left no plan, and the answer is to decline for that.
    ...stops,
    ...outcome.standingRules,
    ...(own?.fate.removedBy ?? []),
    ...(own?.outcome === 'possible' ? own.reasons.map(({ rule }) => rule) : []),
  ];
  return [...new Set(against)];
}

/** Nothing sets a stop aside. */
export const isStop = ({ group }: Rule): boolean => group === 'stop';

/** A referral, or what the cloth can bear: set aside only with a note of what is risked. */
export const isGrave = ({ group }: Rule): boolean => group === 'refer' || group === 'capability';

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
