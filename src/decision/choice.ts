import type { Treatment } from '../casebook/scales.ts';
import type { Problem } from '../problems/problem.ts';
import type { Rule } from '../rulebook/model.ts';
import { alternatives } from './alternatives.ts';
import type { Decision } from './decide.ts';

/** Somebody's wish to do otherwise than recommended. */
export interface Choice {
  readonly treatment: Treatment;
  readonly because: string | undefined;
  readonly riskNote: string | undefined;
}

/**
 * The rules a choice goes against, or why it cannot be made: stops cannot be set aside; against a referral, or against
 * what the cloth can bear, it wants a risk note; it always wants a reason.
 */
export function overridesOf(
  choice: Choice,
  { situation, outcome, stops: stopping }: Decision,
): { overrides: readonly Rule[] } | { problems: Problem[] } {
  const standing = outcome.standingRules;
  const own = alternatives(situation, outcome).find(({ treatment }) => treatment === choice.treatment);
  const against = [
    // A stop stands even where the rules have left no plan, and the answer is to decline for that.
    ...stopping,
    ...standing,
    ...(own?.fate.removedBy ?? []),
    ...(own?.outcome === 'possible' ? own.reasons.map(({ rule }) => rule) : []),
  ];
  const overrides = [...new Set(against)];
  const stops = overrides.filter(({ group }) => group === 'stop');
  const grave = overrides.filter(({ group }) => group === 'refer' || group === 'capability');
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
