import type { QuiltCase } from '../../casebook/model.ts';
import { prepare, type StudioPractice } from '../../decision/prepare.ts';
import type { Situation } from '../../decision/situation.ts';
import { fastVerdicts, type Verdicts } from '../../decision/verdicts.ts';
import { oncePer } from '../../quantities/once.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import type { Rule, Rulebook } from '../../rulebook/model.ts';
import { type ChangedRule, differInConditionAlone } from './books.ts';

/** A case made ready by one book, and what its rules have been found to say of it. */
export interface Prepared {
  readonly quiltCase: QuiltCase;
  readonly knowledge: Knowledge;
  readonly situation: Situation;
  readonly verdicts: Verdicts;
}

/** Rules that have had their say when a case is ready: what is done with its units, and which use is refused. */
const prepares = ({ group, effects }: Rule): boolean => group === 'units' || effects.refuseUse !== undefined;

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
  const situation = prepare(quiltCase, knowledge, practice, asOf);
  return { quiltCase, knowledge, situation, verdicts: fastVerdicts(situation) };
}

/**
 * Whether a changed rule leaves the answer as it was, whichever of its wordings is in the book: both are false of the
 * quilt and of every plan, so that they have no part in it and no rule yields to them; or they differ in their
 * condition alone, and it comes out the same everywhere. Of a rule that makes the case ready nothing is said: what it
 * does has been done already.
 */
export function saysAlike({ old, now }: ChangedRule, prepared: Prepared): boolean {
  if ([old, now].some((rule) => rule !== undefined && prepares(rule))) return false;
  if (isSilent(old, prepared) && isSilent(now, prepared)) return true;
  if (old === undefined || now === undefined || !differInConditionAlone(old, now)) return false;
  const { situation, verdicts } = prepared;
  return (
    verdicts.anyPlan(old) === verdicts.anyPlan(now) &&
    situation.options.every((_, option) => verdicts.plan(old, option) === verdicts.plan(now, option))
  );
}

/** False of the quilt and of every plan. */
function isSilent(rule: Rule | undefined, { situation, verdicts }: Prepared): boolean {
  if (rule === undefined) return true;
  const general = verdicts.anyPlan(rule);
  if (general !== undefined || !rule.perPlan) return general === false;
  return situation.options.every((_, option) => verdicts.plan(rule, option) === false);
}
