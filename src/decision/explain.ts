import { sayValue } from '../findings/say.ts';
import type { Rule } from '../rulebook/model.ts';
import { chosenInstead } from './agreed.ts';
import { type Alternative, alternatives } from './alternatives.ts';
import type { Answer, AnswerOption, ChosenWay, RatherThan, Reason } from './answer-model.ts';
import { answerEstimates, answerPlan } from './answer-plan.ts';
import type { DecisionContext } from './context.ts';
import { openFindings } from './open-findings.ts';
import { isProvisional, opening } from './provisional.ts';
import { ratherThan } from './rather-than.ts';
import { reasonFor, unitReasons } from './reasons.ts';
import { isSafe, safety } from './safety.ts';
import { type Saying, sayingFor } from './saying.ts';
import { recommendedOption, type Settled } from './settled.ts';
import { sinceApproval } from './since-approval.ts';
import { Texts } from './texts.ts';
import { weighReasons } from './weigh-reasons.ts';

/** Puts a settled case into words: every sentence comes from the trace of a rule that is named beside it. */
export function explain(settled: Settled, { knowledge, practice }: DecisionContext): Answer {
  const { situation, ballot, outcome, force, rules, whenApproved: then } = settled;
  const open = opening(situation, ballot, outcome);
  const { units, currency } = practice.settings;
  const say = sayingFor(knowledge.subjects, { units, currency });
  const texts = new Texts(situation, outcome, rules, force, say.words);
  const ours = recommendedOption(settled)?.option;
  const all = alternatives(situation, outcome);
  const reasonsOf = (one: Settled, among: readonly Alternative[]): Reason[] => [
    ...moreDone(one, say),
    ...weighReasons(one, among).map(({ rule, option, deciding }) => quote(one, say, rule, option, deciding)),
    ...unitReasons(one.situation, knowledge, say.words, recommendedOption(one)?.option),
  ];
  const reasons = reasonsOf(settled, all);
  const stopping = safety(settled, knowledge.vocabulary, say.words);
  // Nothing is reserved by a deposit while something still stands before the work.
  const deposits = isSafe({ safety: stopping }) && outcome.standing === 'go_ahead';
  return {
    schema: 'mendwise/decision@1',
    case: situation.quiltCase.case,
    as_of: situation.asOf,
    rulebook: { version: knowledge.rulebook.version, digest: knowledge.rulebook.digest },
    standing: outcome.standing,
    treatment: outcome.treatment,
    provisional: isProvisional(situation, outcome, open),
    plan: ours === undefined ? null : answerPlan(ours.plan, say.length),
    refused_uses: situation.refusedUses,
    reasons,
    rather_than: all.flatMap((each) => otherwise(each, settled, say)),
    would_change: null,
    check_next: null,
    holds_in: null,
    estimates: ours === undefined ? null : answerEstimates(ours, deposits),
    options: all.flatMap((each) => optionShown(each, settled, say, deposits)),
    offers: texts.of('offer'),
    cautions: texts.cautions(),
    conditions: [...texts.outranked(), ...texts.of('condition')],
    since_approval: sinceApproval(
      { settled, reasons },
      then && { settled: then, reasons: reasonsOf(then, alternatives(then.situation, then.outcome)) },
      knowledge,
      (def, fact) => sayValue(def, fact, say.style),
    ),
    chosen: chosenWay(settled, say, isSafe({ safety: stopping })),
    open: openFindings(situation, open, say.words),
    asks: texts.of('ask'),
    safety: stopping,
  };
}

/** Why more is done to its units than the use alone would ask for: what would have stood in the way otherwise. */
function moreDone({ gentler }: Settled, say: Saying): Reason[] {
  if (gentler === undefined) return [];
  const { standingRules, nothingLeft } = gentler.outcome;
  const [first] = alternatives(gentler.situation, gentler.outcome);
  const cited = nothingLeft
    ? first?.reasons.slice(0, 1)
    : standingRules.slice(0, 1).map((rule) => ({ rule, option: undefined }));
  return (cited ?? []).map(({ rule, option }) => {
    const reason = quote(gentler, say, rule, option, true);
    return {
      ...reason,
      effect: 'asks for more',
      because: `More is done to its damaged parts than this use alone would ask for. Otherwise this would hold: ${reason.because}`,
    };
  });
}

function quote(
  { situation }: Settled,
  say: Saying,
  rule: Rule,
  option: number | undefined,
  deciding: boolean,
): Reason {
  return reasonFor({ rule, option }, situation, say.words, deciding);
}

function otherwise(each: Alternative, settled: Settled, say: Saying): RatherThan[] {
  const own = settled.situation.options[each.option];
  if (own === undefined || each.outcome === 'recommended') return [];
  const reasons = each.reasons.map(({ rule, option }) => quote(settled, say, rule, option, false));
  return [ratherThan(each, recommendedOption(settled)?.option, own, reasons, say)];
}

/** What was chosen instead of the recommendation, by the same rules. */
function chosenWay(settled: Settled, say: Saying, deposits: boolean): ChosenWay | null {
  const { situation, outcome, rules, force } = settled;
  const chosen = chosenInstead(settled);
  if (chosen === undefined) return null;
  const { plan } = chosen.option;
  const texts = new Texts(situation, outcome, rules, force, say.words, chosen.index);
  return {
    treatment: plan.treatment,
    on: chosen.on,
    unweighed: chosen.unweighed.map((rule) => ({
      rule: rule.id,
      text: say.words.sentence(rule.because, chosen.option.facts),
    })),
    plan: answerPlan(plan, say.length),
    estimates: answerEstimates(chosen.option, deposits),
    cautions: texts.cautions(),
    conditions: [...texts.outranked(), ...texts.of('condition')],
    asks: texts.of('ask'),
  };
}

function optionShown(
  { option, treatment, outcome, fate }: Alternative,
  { situation }: Settled,
  say: Saying,
  deposits: boolean,
): AnswerOption[] {
  const own = situation.options[option];
  if (own === undefined) return [];
  const because = (rule: Rule) => ({ rule: rule.id, text: say.words.sentence(rule.because, own.facts) });
  return [
    {
      treatment,
      outcome,
      plan: answerPlan(own.plan, say.length),
      estimates: answerEstimates(own, deposits),
      for: fate.prefers.map(because),
      against: [...fate.removedBy, ...fate.avoids].map(because),
    },
  ];
}
