import type { QuiltCase } from '../casebook/model.ts';
import type { Rule } from '../rulebook/model.ts';
import type { Ballot } from './ballot.ts';
import type { Force } from './force.ts';
import type { Outcome } from './settle.ts';
import type { PlacedOption, Situation } from './situation.ts';

/** A case evaluated: all that an explanation is read from, and that questions start from. */
export interface Settled {
  /** The case with its later looks still apart. */
  readonly asGiven: QuiltCase;
  readonly situation: Situation;
  readonly rules: readonly Rule[];
  readonly force: Force;
  readonly ballot: Ballot;
  readonly outcome: Outcome;
  /** Rules of the stop stage that set a standing here, whether or not a graver one outranks them. */
  readonly stops: readonly Rule[];
  /**
   * The same with no more done to its units than this use asks for, where that would have been refused: more is done to
   * them than the use alone would call for, so that the answer can be better.
   */
  readonly gentler: Settled | undefined;
  /** The case as it was known when an estimate was approved; undefined where nobody has looked since. */
  readonly whenApproved: Settled | undefined;
}

/** The plan recommended; none where the answer is to refer or to decline. */
export function recommendedOption({
  situation,
  outcome,
}: Pick<Settled, 'situation' | 'outcome'>): PlacedOption | undefined {
  const index = outcome.treatment === null ? undefined : outcome.best;
  const option = index === undefined ? undefined : situation.options[index];
  return index === undefined || option === undefined ? undefined : { index, option };
}
