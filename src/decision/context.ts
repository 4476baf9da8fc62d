import type { StudioSettings } from '../estimates/price.ts';
import { inForce } from '../rulebook/assemble.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';

/** How a studio works: its prices, and whether it washes by museum or by studio practice. */
export interface StudioPractice {
  readonly settings: StudioSettings;
  readonly washing: 'museum' | 'studio';
}

/** All that a case is decided by, besides the case. */
export interface DecisionContext {
  /** Vocabulary, figures and rules; of the rules those in force on the day. */
  readonly knowledge: Knowledge;
  readonly practice: StudioPractice;
  /** `YYYY-MM-DD`. */
  readonly day: string;
}

/** The only place that chooses the rules in force. Takes a studio, or anything else that has rules and a practice. */
export const contextOf = (
  { knowledge, practice }: Pick<DecisionContext, 'knowledge' | 'practice'>,
  day: string,
): DecisionContext => ({
  knowledge: { ...knowledge, rulebook: inForce(knowledge.rulebook, day) },
  practice,
  day,
});
