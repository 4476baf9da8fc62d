import type { QuiltCase } from '../../casebook/model.ts';
import type { StudioPractice } from '../../decision/context.ts';
import { layPlans, situationOf } from '../../decision/prepare.ts';
import { type Reading, takeReading } from '../../decision/reading.ts';
import type { Situation } from '../../decision/situation.ts';
import { fastVerdicts, type Verdicts } from '../../decision/verdicts.ts';
import { once, oncePer } from '../../quantities/once.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import type { Rule, Rulebook } from '../../rulebook/model.ts';

/**
 * A case made ready by one book, and what its rules have been found to say of it. In most cases the changed rules are
 * settled by what was found; plans are laid out only where somebody asks for the situation or the verdicts.
 */
export interface Prepared {
  readonly quiltCase: QuiltCase;
  readonly knowledge: Knowledge;
  readonly reading: Reading;
  readonly situation: Situation;
  readonly verdicts: Verdicts;
}

/** Rules that have had their say when a case is ready: what is done with its units, and which use is refused. */
export const prepares = ({ group, effects }: Rule): boolean =>
  group === 'units' || effects.refuseUse !== undefined;

const preparing = oncePer((book: Rulebook): readonly Rule[] => book.rules.filter(prepares));

/** Whether two books make a case ready in the same way, so that one situation serves both. */
const prepareAlike = (a: Knowledge, b: Knowledge): boolean => {
  const [rules, others] = [preparing(a.rulebook), preparing(b.rulebook)];
  return (
    a.vocabulary === b.vocabulary &&
    a.figures === b.figures &&
    rules.length === others.length &&
    rules.every((rule, index) => rule === others[index])
  );
};

/** Makes a case ready, or takes one made ready already where it would come out the same. */
export function prepareOr(
  made: readonly Prepared[],
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  practice: StudioPractice,
  asOf: string,
): Prepared {
  const same = made.find((each) => each.quiltCase === quiltCase && prepareAlike(each.knowledge, knowledge));
  if (same !== undefined) return same;
  const context = { knowledge, practice, day: asOf };
  const reading = takeReading(quiltCase, context);
  const situation = once(() => situationOf(reading, layPlans(reading, context), context));
  const verdicts = once(() => fastVerdicts(situation()));
  return {
    quiltCase,
    knowledge,
    reading,
    get situation() {
      return situation();
    },
    get verdicts() {
      return verdicts();
    },
  };
}
