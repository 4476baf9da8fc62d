import type { Action } from '../casebook/scales.ts';
import type { FadeYears, LightEstimate } from '../estimates/model.ts';
import type { Fact } from '../findings/fact.ts';
import { sayValue } from '../findings/say.ts';
import { type GroupAction, type Plan, placesOf } from '../plans/model.ts';
import type { Range } from '../quantities/range.ts';
import { roundNearest } from '../quantities/rounding.ts';
import type { Rule } from '../rulebook/model.ts';
import { Advice } from './advice.ts';
import { type Alternative, alternatives, shownAgainst } from './alternatives.ts';
import type {
  Answer,
  AnswerEstimates,
  AnswerOption,
  AnswerPlan,
  ChosenWay,
  RatherThan,
  Reason,
  SettledBy,
} from './answer-model.ts';
import { chosenInstead } from './choice.ts';
import type { DecisionContext } from './context.ts';
import { recommendedOption, type Settled } from './outcome.ts';
import { isProvisional, rulesThatCouldChange } from './provisional.ts';
import { decidingStep } from './ranking.ts';
import { openFindings, reasonFor, unitReasons, weighReasons } from './reasons.ts';
import { isSafe, isSeenInHand, safety } from './safety.ts';
import { sinceApproval } from './since-approval.ts';
import { estimatesOf, mostHoles, type Option } from './situation.ts';
import { type Formatter, formatterFor, ratherThan, settledBy } from './wording.ts';

/** Puts a settled case into words: every sentence comes from the trace of a rule that is named beside it. */
export function explain(settled: Settled, { knowledge, practice }: DecisionContext): Answer {
  const { situation, ballot, outcome, whenApproved: then } = settled;
  const open = rulesThatCouldChange(situation, ballot, outcome);
  const { units, currency } = practice.settings;
  const say = formatterFor(knowledge.subjects, { units, currency });
  const texts = new Advice(settled, say.words);
  const ours = recommendedOption(settled)?.option;
  const all = alternatives(situation, outcome);
  const reasonsOf = (one: Settled, among: readonly Alternative[]): Reason[] => [
    ...moreDone(one, say),
    ...weighReasons(one, among).map(({ rule, option, deciding, forAnswer }) => ({
      ...reasonFor({ rule, option }, one.situation, say.words),
      deciding,
      for_answer: forAnswer,
    })),
    ...unitReasons(one.situation, knowledge, say.words, recommendedOption(one)?.option),
  ];
  const reasons = reasonsOf(settled, all);
  const stopping = safety(settled, knowledge.vocabulary, say.words);
  // Nothing is reserved by a deposit while something still stands before the work.
  const firm = isSafe({ safety: stopping }) && isSeenInHand(situation.facts);
  const deposits = firm && outcome.standing === 'go_ahead';
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
    settled_by: settlingStep(settled),
    rather_than: all.flatMap((each) => otherwise(each, settled, say)),
    would_change: null,
    check_next: null,
    holds_in: null,
    estimates: ours === undefined ? null : answerEstimates(ours, deposits),
    options: all.flatMap((each) => optionShown(each, settled, say, deposits)),
    offers: texts.of('offer'),
    ask_others: texts.of('specialist'),
    cautions: texts.cautions(),
    conditions: [...texts.outranked(), ...texts.of('condition')],
    since_approval: sinceApproval(
      { settled, reasons },
      then && { settled: then, reasons: reasonsOf(then, alternatives(then.situation, then.outcome)) },
      knowledge,
      (def, fact) => sayValue(def, fact, say.style),
    ),
    chosen: chosenWay(settled, say, firm),
    open: openFindings(situation, open, say.words),
    asks: texts.of('ask'),
    safety: stopping,
  };
}

/** Why more is done to its units than the use alone would ask for: what would have stood in the way otherwise. */
function moreDone({ gentler }: Settled, say: Formatter): Reason[] {
  if (gentler === undefined) return [];
  const { standingRules, nothingLeft } = gentler.outcome;
  const [first] = alternatives(gentler.situation, gentler.outcome);
  const cited = nothingLeft
    ? first?.reasons.slice(0, 1)
    : standingRules.slice(0, 1).map((rule) => ({ rule, option: undefined }));
  return (cited ?? []).map(({ rule, option }) => {
    const reason = reasonFor({ rule, option }, gentler.situation, say.words);
    return {
      ...reason,
      deciding: true,
      for_answer: true,
      effect: 'asks for more',
      because: `More is done to its damaged parts than this use alone would ask for. Otherwise this would hold: ${reason.because}`,
    };
  });
}

function otherwise(each: Alternative, settled: Settled, say: Formatter): RatherThan[] {
  const own = settled.situation.options[each.option];
  if (own === undefined || each.outcome === 'recommended') return [];
  const reasons = shownAgainst(each).map((cited) => reasonFor(cited, settled.situation, say.words));
  return [ratherThan(each, { recommended: recommendedOption(settled)?.option, own }, reasons, say)];
}

/** On what the recommendation comes before the next best treatment, where that is no rule. */
function settlingStep({ situation, outcome }: Settled): SettledBy | null {
  const { best, ranking, planOutcomes, treatment } = outcome;
  if (best === undefined || treatment === null) return null;
  const next = ranking.find(({ option }) => situation.options[option]?.plan.treatment !== treatment);
  const other = next === undefined ? undefined : situation.options[next.option];
  if (next === undefined || other === undefined) return null;
  return settledBy(decidingStep(situation, planOutcomes, best, next.option), other.plan.treatment);
}

/** What was chosen instead of the recommendation, by the same rules. */
function chosenWay(settled: Settled, say: Formatter, deposits: boolean): ChosenWay | null {
  const chosen = chosenInstead(settled);
  if (chosen === undefined) return null;
  const { plan } = chosen.option;
  const texts = new Advice(settled, say.words, chosen.index);
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
  { option, treatment, outcome, planOutcome }: Alternative,
  { situation }: Settled,
  say: Formatter,
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
      for: planOutcome.prefers.map(because),
      against: [...planOutcome.removedBy, ...planOutcome.avoids].map(because),
    },
  ];
}

/** The plan as the answer shows it. `sayLength` gives lengths in the studio's units, and "not known". */
function answerPlan(plan: Plan, sayLength: (fact: Fact) => string): AnswerPlan {
  const actions: Partial<
    Record<Action, { units: number; where: readonly string[] | null; families: readonly string[] }>
  > = {};
  for (const [action, groups] of byAction(plan.actions)) {
    if (action === 'keep') continue;
    const places = placesOf(groups, plan.actions);
    actions[action] = {
      units: groups.reduce((sum, { group }) => sum + group.count, 0),
      where: places === undefined ? null : [...places].sort(byPosition),
      families: [...new Set(groups.flatMap(({ group }) => group.family ?? []))].sort(),
    };
  }
  return {
    actions,
    backing: plan.backing,
    batting: plan.batting,
    new_batting: plan.newBatting ?? null,
    joining: plan.joining,
    pattern: plan.pattern,
    directions: plan.directions,
    gap_after: sayLength(plan.gaps.fresh ?? plan.gaps.after),
    sewn_by: plan.sewnBy,
    joins_resewn: plan.resewn.joins,
    resewn_by: plan.resewn.by,
    opens: plan.opens,
  };
}

function byAction(actions: readonly GroupAction[]): Map<Action, GroupAction[]> {
  const sorted = new Map<Action, GroupAction[]>();
  for (const each of actions)
    for (const action of each.filled ? [each.action, 'restuff' as const] : [each.action])
      sorted.set(action, [...(sorted.get(action) ?? []), each]);
  return sorted;
}

/** A2 before A10, Z1 before AA1. */
function byPosition(a: string, b: string): number {
  const [rowA = '', rowB = ''] = [a, b].map((at) => at.replace(/\d+$/, ''));
  return rowA.length - rowB.length || inAlphabet(rowA, rowB) || a.length - b.length || inAlphabet(a, b);
}

/** As a dictionary has it, small letters first. Asking `Intl` takes a program that has just started 15 ms. */
const inAlphabet = (a: string, b: string): number =>
  inOrder(a.toLowerCase(), b.toLowerCase()) || inOrder(b, a);

const inOrder = (a: string, b: string): number => Number(a > b) - Number(a < b);

/** Doses to a thousand lux-hours, years to one decimal. */
function answerLight({ luxHoursPerYear, yearsToFade, rotated }: LightEstimate): AnswerEstimates['light'] {
  const to = (step: number, { low, likely, high }: Range): Range => ({
    low: roundNearest(low, step),
    likely: roundNearest(likely, step),
    high: roundNearest(high, step),
  });
  const years = ({ withUv, uvBlocked }: FadeYears): { with_uv: Range; uv_blocked: Range } => ({
    with_uv: to(0.1, withUv),
    uv_blocked: to(0.1, uvBlocked),
  });
  return {
    lux_hours_per_year: to(1000, luxHoursPerYear),
    years_to_fade: years(yearsToFade),
    rotated: { share: rotated.share, years_to_fade: years(rotated.yearsToFade) },
  };
}

/**
 * Estimates as the answer shows them: years and hours to one decimal, the rest whole. Nothing asks for
 * a deposit where `deposits` is false.
 */
function answerEstimates(option: Option, deposits: boolean): AnswerEstimates {
  const { life, holes, hours, price, materials, light } = estimatesOf(option);
  const tenth = (value: number): number => Math.round(value * 10) / 10;
  return {
    life_years: {
      low: tenth(life.low),
      middle: tenth(life.middle),
      high: tenth(life.high),
      horizon: life.horizon,
      weakest_link: life.weakestLink,
      use: life.use,
    },
    holes: {
      new_old_face: holes.newOldFace,
      new_old_allowance: holes.newOldAllowance,
      new_old_backing: holes.newOldBacking,
      reused: holes.reused,
      new_cloth: holes.newCloth,
      inherited: holes.inherited,
      perforation: Math.round(holes.perforation * 1000) / 1000,
      most: mostHoles(option),
      plain_quilt: holes.plainQuilt,
    },
    hours: { low: tenth(hours.low), likely: tenth(hours.likely), high: tenth(hours.high) },
    price: {
      low: price.low,
      likely: price.likely,
      high: price.high,
      currency: price.currency,
      floor: price.floor,
      deposit: deposits ? price.deposit : 0,
      hold_point: price.holdPoint,
    },
    materials: materials.items.map(({ what, amount, unit, note }) => ({
      what,
      amount: Math.round(amount * 1000) / 1000,
      unit,
      note: note ?? null,
    })),
    light: light === undefined ? null : answerLight(light),
    assumptions: [...new Set([...life.assumptions, ...holes.assumptions, ...(light?.assumptions ?? [])])],
  };
}
