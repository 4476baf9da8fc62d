import type { QuiltCase } from '../casebook/model.ts';
import type { DecisionContext } from '../decision/context.ts';
import { evaluateRules, type RuleTruths, stageRules } from '../decision/precedence.ts';
import { situationOf } from '../decision/prepare.ts';
import { deriveFacts, type QuiltFacts } from '../decision/quilt-facts.ts';
import { newHolesInOldCloth, type Situation } from '../decision/situation.ts';
import type { Facts } from '../findings/fact.ts';
import { memoize } from '../quantities/memo.ts';
import { evaluateWithoutPlan } from '../rulebook/evaluate.ts';
import type { Truth } from '../rulebook/kleene.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rule, Rulebook } from '../rulebook/model.ts';
import { type ChangedRule, differInConditionAlone } from './align-rulebooks.ts';
import { evaluateCase } from './study.ts';

/**
 * A case made ready by one book, and what its rules have been found to say of it. In most cases the changed rules are
 * settled by what was found; plans are laid out only where somebody asks for the situation or the verdicts.
 */
export interface Prepared {
  readonly quiltCase: QuiltCase;
  readonly knowledge: Knowledge;
  readonly reading: QuiltFacts;
  readonly situation: Situation;
  readonly truths: RuleTruths;
}

/** Rules that have had their say when a case is ready: what is done with its units, and which use is refused. */
const prepares = ({ group, effects }: Rule): boolean => group === 'units' || effects.refuseUse !== undefined;

const preparing = (book: Rulebook): readonly Rule[] => book.rules.filter(prepares);

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
export function prepareCached(
  made: readonly Prepared[],
  quiltCase: QuiltCase,
  context: DecisionContext,
): Prepared {
  const { knowledge } = context;
  const same = made.find((each) => each.quiltCase === quiltCase && prepareAlike(each.knowledge, knowledge));
  if (same !== undefined) return same;
  const reading = deriveFacts(quiltCase, context);
  const situation = memoize(() => situationOf(reading, context));
  const truths = memoize(() => evaluateRules(situation()));
  return {
    quiltCase,
    knowledge,
    reading,
    get situation() {
      return situation();
    },
    get truths() {
      return truths();
    },
  };
}

/**
 * Whether a changed rule leaves the answer as it was, whichever of its wordings is in the book: both are false of the
 * quilt and of every plan, so that they have no part in it and no rule yields to them; or they differ in their
 * condition alone, and it comes out the same everywhere. Of a rule that makes the case ready nothing is said: what it
 * does has been done already.
 *
 * Asked of what was found first, then of what is planned with it, then of every plan: each costs several times the one
 * before, and what is certain while the rest is left open stays so.
 */
export function isUnaffected(changed: ChangedRule, prepared: Prepared): boolean {
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
    rule === undefined ? false : evaluateWithoutPlan(rule, facts);
  const [was, is] = [of(old), of(now)];
  if (was === undefined || was !== is) return false;
  return was === false || (old !== undefined && now !== undefined && differInConditionAlone(old, now));
}

function alikeOfEveryPlan({ old, now }: ChangedRule, prepared: Prepared): boolean {
  if (neverHolds(old, prepared) && neverHolds(now, prepared)) return true;
  if (old === undefined || now === undefined || !differInConditionAlone(old, now)) return false;
  const { situation, truths } = prepared;
  return (
    truths.anyPlan(old) === truths.anyPlan(now) &&
    situation.options.every((_, option) => truths.plan(old, option) === truths.plan(now, option))
  );
}

/** False of the quilt and of every plan. */
function neverHolds(rule: Rule | undefined, { situation, truths }: Prepared): boolean {
  if (rule === undefined) return true;
  const general = truths.anyPlan(rule);
  if (general !== undefined || !rule.perPlan) return general === false;
  return situation.options.every((_, option) => truths.plan(rule, option) === false);
}

/** What a rulebook makes of one case, in words and figures that can be laid side by side. */
export type Fingerprint = Readonly<Record<Aspect, string>>;

export const ASPECTS = [
  'standing',
  'treatment',
  'plan',
  'provisional',
  'refused uses',
  'rules cited',
  'rules undecided',
  'years',
  'holes',
  'hours',
  'price',
] as const;
export type Aspect = (typeof ASPECTS)[number];

export function fingerprint(situation: Situation, knowledge: Knowledge, truths: RuleTruths): Fingerprint {
  const judged = evaluateCase(situation, stageRules(knowledge.rulebook), knowledge.subjects, { truths });
  const best = judged.treatment === null ? undefined : situation.options[judged.outcome.best ?? -1];
  const listed = (words: Iterable<string>): string => [...words].sort().join(', ') || 'none';
  const round = (value: number): string => String(Math.round(value * 10) / 10);
  const between = ({ low, high }: { low: number; high: number }): string => `${round(low)} to ${round(high)}`;
  const of = (say: (option: NonNullable<typeof best>) => string): string =>
    best === undefined ? 'none' : say(best);
  return {
    standing: judged.standing,
    treatment: judged.treatment ?? 'none',
    plan: of(({ plan }) => plan.id),
    provisional: judged.provisional ? 'yes' : 'no',
    'refused uses': listed(judged.refused_uses),
    'rules cited': listed(judged.cited),
    'rules undecided': listed(judged.undecided),
    years: of(({ estimator }) => between(estimator.life())),
    holes: of((option) => round(newHolesInOldCloth(option))),
    hours: of(({ estimator }) => between(estimator.hours())),
    price: of(({ estimator }) => between(estimator.price())),
  };
}
