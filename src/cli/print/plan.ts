import type { Treatment } from '../../casebook/scales.ts';
import type { AnswerPlan } from '../../decision/answer-model.ts';
import { ACTION_WORDS, counted } from './labels.ts';

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
