import type { QuiltCase } from '../casebook/model.ts';
import type { Rule } from '../rulebook/model.ts';
import type { Ballot } from './ballot.ts';
import type { Force } from './force.ts';
import type { Outcome } from './settle.ts';
import type { PlacedOption, Situation } from './situation.ts';
import type { TracedVerdicts } from './verdicts.ts';

/** A settled case with all that its explanation is read from. */
export interface Settled {
  /** The case with its later looks still apart. */
  readonly asGiven: QuiltCase;
  readonly situation: Situation;
  readonly outcome: Outcome;
  readonly verdicts: TracedVerdicts;
  readonly force: Force;
  readonly ballot: Ballot;
  readonly rules: readonly Rule[];
  /** Rules of the stop stage that set a standing here, whether or not a graver one outranks them. */
  readonly stops: readonly Rule[];
  /** Rules that what is not known leaves open and that could still change standing or treatment. */
  readonly open: readonly Rule[];
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
