import type { Facts } from '../../findings/fact.ts';
import { judgeWhateverThePlan } from '../../rulebook/fast.ts';
import type { Truth } from '../../rulebook/kleene.ts';
import type { Rule } from '../../rulebook/model.ts';
import { type ChangedRule, differInConditionAlone } from './books.ts';
import { type Prepared, prepares } from './prepared.ts';

/**
 * Whether a changed rule leaves the answer as it was, whichever of its wordings is in the book: both are false of the
 * quilt and of every plan, so that they have no part in it and no rule yields to them; or they differ in their
 * condition alone, and it comes out the same everywhere. Of a rule that makes the case ready nothing is said: what it
 * does has been done already.
 *
 * Asked of what was found first, then of what is planned with it, then of every plan: each costs several times the one
 * before, and what is certain while the rest is left open stays so.
 */
export function saysAlike(changed: ChangedRule, prepared: Prepared): boolean {
  const { old, now } = changed;
  if ([old, now].some((rule) => rule !== undefined && prepares(rule))) return false;
  const { reading } = prepared;
  return (
    alikeOn(changed, reading.found) ||
    alikeOn(changed, { ...reading.found, ...reading.planned }) ||
    alikeOfEveryPlan(changed, prepared)
  );
}

/** Certain on these facts, whatever becomes of those that are not among them. */
function alikeOn({ old, now }: ChangedRule, facts: Facts): boolean {
  const of = (rule: Rule | undefined): Truth =>
    rule === undefined ? false : judgeWhateverThePlan(rule, facts);
  const [was, is] = [of(old), of(now)];
  if (was === undefined || was !== is) return false;
  return was === false || (old !== undefined && now !== undefined && differInConditionAlone(old, now));
}

function alikeOfEveryPlan({ old, now }: ChangedRule, prepared: Prepared): boolean {
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
