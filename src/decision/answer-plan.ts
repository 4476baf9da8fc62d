import type { Action } from '../casebook/scales.ts';
import type { FadeYears, LightEstimate } from '../estimates/model.ts';
import type { Fact } from '../findings/fact.ts';
import type { GroupAction, Plan } from '../plans/model.ts';
import { placesOf } from '../plans/places.ts';
import type { Range } from '../quantities/range.ts';
import { roundNearest } from '../quantities/rounding.ts';
import type { AnswerEstimates, AnswerPlan } from './answer-model.ts';
import type { Option } from './situation.ts';

/** The plan as the answer shows it. `sayLength` gives lengths in the studio's units, and "not known". */
export function answerPlan(plan: Plan, sayLength: (fact: Fact) => string): AnswerPlan {
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
    gap_after: sayLength(plan.gaps.after),
    sewn_by: plan.sewnBy,
    joins_resewn: plan.resewn.joins,
    resewn_by: plan.resewn.by,
    opens: plan.opens,
  };
}

function byAction(actions: readonly GroupAction[]): Map<Action, GroupAction[]> {
  const sorted = new Map<Action, GroupAction[]>();
  for (const each of actions) sorted.set(each.action, [...(sorted.get(each.action) ?? []), each]);
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
 * Estimates as the answer shows them: years and hours to one decimal, the rest whole. Advice to leave a quilt alone asks
 * for no deposit, nor does anything where `deposits` is false.
 */
export function answerEstimates({ plan, estimates }: Option, deposits: boolean): AnswerEstimates {
  const { life, holes, hours, price, materials, light } = estimates;
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
    },
    hours: { low: tenth(hours.low), likely: tenth(hours.likely), high: tenth(hours.high) },
    price: {
      low: price.low,
      likely: price.likely,
      high: price.high,
      currency: price.currency,
      floor: price.floor,
      deposit: deposits && plan.treatment !== 'leave' ? price.deposit : 0,
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
