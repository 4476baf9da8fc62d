import type { Treatment } from '../../casebook/scales.ts';
import type { AnswerEstimates, AnswerPlan } from '../../decision/answer-model.ts';
import { ACTION_WORDS, USE_WORDS } from '../../decision/words.ts';
import { formatMoney } from '../../quantities/rounding.ts';
import { counted, DUE_NOW, holesTold } from '../phrases.ts';
import { type PageStyle, row } from './layout.ts';

/** Years as a range; what reaches the horizon is "more than". */
export function yearsRange({ low, high, horizon }: AnswerEstimates['life_years']): string {
  const whole = (value: number): string =>
    value < 2 ? String(Math.round(value * 10) / 10) : String(Math.round(value));
  if (high <= 0) return DUE_NOW;
  if (low >= horizon) return `more than ${horizon} years`;
  if (high >= horizon) return `${whole(low)} to more than ${horizon} years`;
  return `${whole(low)} to ${whole(high)} years`;
}

export const newHoles = ({ holes }: AnswerEstimates): number =>
  holes.new_old_face + holes.new_old_allowance + holes.new_old_backing;

/** The estimates of one plan, a row each. */
export function estimateRows(estimates: AnswerEstimates, style: PageStyle): string[] {
  const { life_years: life, holes, hours, price, light } = estimates;
  const money = (amount: number): string => formatMoney(amount, price.currency);
  return [
    row(
      'Next repair due in',
      `${yearsRange(life)} ${USE_WORDS[life.use] ?? life.use} (8 chances in 10). Likely to give way first: ${life.weakest_link}.`,
      style,
    ),
    row('New holes in old cloth', holesTold(holes).join(' '), style),
    row(
      'Hours of work',
      `${Math.round(hours.low)} to ${Math.round(hours.high)}, likely ${Math.round(hours.likely)}`,
      style,
    ),
    row(
      'Price',
      `${money(price.likely)} asked; it may come to ${money(price.low)} to ${money(price.high)}${price.deposit > 0 ? `; deposit ${money(price.deposit)}` : ''}${price.hold_point ? '; a pause for approval once it is open' : ''}`,
      style,
    ),
    ...(light === null ? [] : [row('Fading on display', fadeSentence(light), style)]),
  ];
}

/** What a year's light comes to, when a fade first shows, and what delays it. */
function fadeSentence({ lux_hours_per_year: dose, years_to_fade: fade, rotated }: Light): string {
  const after = ({ low, likely, high }: Light['lux_hours_per_year']): string =>
    `${time(low)} to ${time(high)}, likely about ${time(likely)}`;
  return (
    `A first fade shows after ${after(fade.with_uv)}, up all year at ${tidy(dose.low / 1e6)} to ${tidy(dose.high / 1e6)} million lux-hours; ` +
    `with ultraviolet filtered out after ${after(fade.uv_blocked)}. ` +
    `Up ${Math.round(rotated.share * 100)} % of the time it takes ${tidy(1 / rotated.share)} times as long.`
  );
}

const tidy = (value: number): number => (value < 10 ? Math.round(value * 10) / 10 : Math.round(value));

function time(years: number): string {
  if (years < 1) return counted(Math.max(1, Math.round(years * 12)), 'month');
  const shown = tidy(years);
  return shown < 10 ? `${shown} ${shown === 1 ? 'year' : 'years'}` : counted(shown, 'year');
}

type Light = NonNullable<AnswerEstimates['light']>;

const BACKING: Readonly<Record<string, string>> = {
  keep: 'the backing stays',
  add: 'a new backing goes over the old one',
  replace: 'the backing is replaced',
  none: 'it has no backing',
};
const BATTING: Readonly<Record<string, string>> = {
  keep: 'the batting stays',
  replace: 'the batting is replaced',
  none: 'no batting',
};

/** What is done, in one sentence: units, seams, layers, and what holds them. */
export function planSentence(treatment: Treatment, plan: AnswerPlan): string {
  if (treatment === 'leave') return 'Nothing is sewn: handling, storage and care.';
  const units = Object.entries(plan.actions).map(
    ([action, { units: count, families }]) =>
      `${counted(count, 'unit')} ${ACTION_WORDS[action] ?? action}${families.length > 0 ? ` (fabric ${families.join(', ')})` : ''}`,
  );
  const parts = [
    ...units,
    ...(plan.joins_resewn > 0 ? [`${counted(plan.joins_resewn, 'seam')} resewn by ${plan.resewn_by}`] : []),
    backingOf(treatment, plan),
    battingOf(plan),
    ...joining(plan),
  ];
  const text = parts.join('; ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

function backingOf(treatment: Treatment, plan: AnswerPlan): string {
  if (plan.backing === 'add' && treatment === 'backing') return 'a new backing carries the load';
  return BACKING[plan.backing] ?? plan.backing;
}

function battingOf(plan: AnswerPlan): string {
  const kind = plan.new_batting === null ? '' : ` (${plan.new_batting.replaceAll('_', ' ')})`;
  return `${BATTING[plan.batting] ?? plan.batting}${kind}`;
}

function joining({ joining: kind, pattern, directions, gap_after, sewn_by }: AnswerPlan): string[] {
  if (kind === 'none') return [];
  const way = directions === 'both' ? '' : `, ${directions} and not both ways`;
  const hand = kind === 'lines' ? ` by ${sewn_by}` : '';
  return [`${kind}${hand} at ${pattern}${way}, ${gap_after} apart at most`];
}
