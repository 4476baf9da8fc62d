import type { AnswerEstimates } from '../decision/answer-model.ts';
import { between } from './phrases.ts';

type Life = AnswerEstimates['life_years'];

/** Short spans are told in months: nobody plans by tenths of a year. */
const MONTHS_BELOW = 2;

const months = (years: number): number => Math.max(1, Math.round(years * 12));

const one = (years: number): { figure: string; unit: string } =>
  years < MONTHS_BELOW
    ? { figure: String(months(years)), unit: months(years) === 1 ? 'month' : 'months' }
    : { figure: String(Math.round(years)), unit: 'years' };

/** Whether there is a forecast at all: cloth that fails at the next handling has none. */
export const isForecast = ({ high }: Life): boolean => high > 0;

/** "5 months to 3 years", "2 to 8 years", "more than 50 years". */
export function yearsRange({ low, high, horizon }: Life): string {
  if (high <= 0) return 'no time can be given: it may give way when next handled';
  if (low >= horizon) return `more than ${horizon} years`;
  const from = one(low);
  if (high >= horizon) return `${from.figure} ${from.unit} to more than ${horizon} years`;
  const to = one(high);
  return from.unit === to.unit || (from.unit === 'month' && to.unit === 'months')
    ? `${between(from.figure, to.figure)} ${to.unit}`
    : `${from.figure} ${from.unit} to ${to.figure} ${to.unit}`;
}
