import type { QuiltCase } from '../casebook/model.ts';
import { USES } from '../casebook/scales.ts';
import type { GroupAction } from '../plans/model.ts';
import { daysBetween } from '../quantities/date.ts';
import type { Recommendation } from './answer-model.ts';
import type { DecisionContext } from './context.ts';
import { isGraver, type Settled, settle } from './outcome.ts';
import { ActiveRules, evaluateRules, stageRules } from './precedence.ts';
import { situationOf } from './prepare.ts';
import { deriveFacts, type QuiltFacts, unitsTreated } from './quilt-facts.ts';
import { whenApproved } from './since-approval.ts';
import { collectVotes, stopsIn } from './votes.ts';

/**
 * The way of a case, in one direction: facts, plans and their estimates, what the rules say of each, and what they
 * leave. Everything that asks what a quilt would be advised goes through here, whether one answer is wanted or thousands.
 */
export function evaluate(onFile: QuiltCase, context: DecisionContext): Settled {
  const quiltCase = knownOn(onFile, context.day);
  const reading = deriveFacts(quiltCase, context);
  const own = settleReading(quiltCase, reading, context);
  const best = mayBeBettered(own) ? withMoreDone(own, reading, context) : own;
  const approved = whenApproved(quiltCase);
  return approved === undefined ? best : { ...best, whenApproved: evaluate(approved, context) };
}

function settleReading(asGiven: QuiltCase, reading: QuiltFacts, context: DecisionContext): Settled {
  const situation = situationOf(reading, context);
  const rules = stageRules(context.knowledge.rulebook);
  const active = new ActiveRules(rules, evaluateRules(situation));
  const ballot = collectVotes(situation, rules, active);
  const outcome = settle(situation, ballot);
  const stops = stopsIn(ballot);
  return {
    asGiven,
    situation,
    rules,
    active,
    ballot,
    outcome,
    stops,
    gentler: undefined,
    whenApproved: undefined,
  };
}

/**
 * Whether it is refused for a reason that more work on the units could take away. What is done with them changes no
 * finding, so a rule that reads findings alone stands whatever is done.
 */
function mayBeBettered({ ballot, outcome: { standing } }: Settled): boolean {
  if (standing !== 'decline' && standing !== 'refer') return false;
  return !ballot.standings.some(
    ({ rule, truth }) =>
      truth === true &&
      rule.effects.stand === standing &&
      rule.yieldsTo.length === 0 &&
      rule.tests.every(({ subject }) => subject === 'finding'),
  );
}

/**
 * What may be done for a harder use may be done for a softer one too: patches that would let it go on a bed in daily use
 * let it go on a guest bed as well. The least of it that leads to a better answer is taken.
 */
function withMoreDone(own: Settled, reading: QuiltFacts, context: DecisionContext): Settled {
  const { use } = reading;
  if (use === undefined) return own;
  const tried = [own];
  for (const harder of USES.slice(USES.indexOf(use) + 1, USES.indexOf('infant_sleep'))) {
    const treated = unitsTreated(reading, context.knowledge, harder);
    if (tried.some((each) => sameActions(each.situation.actions, treated.actions))) continue;
    tried.push(settleReading(own.asGiven, { ...reading, ...treated }, context));
  }
  const [best = own] = tried.toSorted((a, b) =>
    isGraver(a.outcome.standing, b.outcome.standing)
      ? 1
      : isGraver(b.outcome.standing, a.outcome.standing)
        ? -1
        : 0,
  );
  return best === own ? own : { ...best, gentler: own };
}

const sameActions = (some: readonly GroupAction[], others: readonly GroupAction[]): boolean =>
  some.length === others.length && some.every(({ action }, index) => action === others[index]?.action);

/** What is dated after the day lifts no stop on it; a deadline is so many weeks from the day. */
function knownOn(onFile: QuiltCase, day: string): QuiltCase {
  const quiltCase = withWeeksLeft(onFile, day);
  const { treated } = quiltCase;
  if (treated === undefined || treated.every(({ on }) => on <= day)) return quiltCase;
  return { ...quiltCase, treated: treated.filter(({ on }) => on <= day) };
}

type Findings = QuiltCase['survey']['findings'];

const weeksLeft = ({ deadline, ...findings }: Findings, day: string): Findings => ({
  ...findings,
  // A day that has passed leaves the least there is, so that the rules still see it cannot be met.
  deadline_weeks: Math.max(1, Math.floor((daysBetween(day, String(deadline)) * 10) / 7)) / 10,
});

/** A case whose deadline is a date, with the weeks left until then, to a tenth; every later look may state its own. */
function withWeeksLeft(quiltCase: QuiltCase, day: string): QuiltCase {
  const { survey, resurveys } = quiltCase;
  const dated = ({ findings = {} }: { findings?: Findings }) => findings.deadline !== undefined;
  if (!dated(survey) && !resurveys.some(dated)) return quiltCase;
  return {
    ...quiltCase,
    survey: dated(survey) ? { ...survey, findings: weeksLeft(survey.findings, day) } : survey,
    resurveys: resurveys.map((look) =>
      dated(look) ? { ...look, findings: weeksLeft(look.findings ?? {}, day) } : look,
    ),
  };
}

/** What most questions want of it: standing and treatment. */
export function recommendationOf(quiltCase: QuiltCase, context: DecisionContext): Recommendation {
  const { standing, treatment } = evaluate(quiltCase, context).outcome;
  return { standing, treatment };
}
