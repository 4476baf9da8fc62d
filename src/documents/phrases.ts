import type { Range } from '../quantities/range.ts';
import { whole } from '../quantities/whole.ts';

/** "1 block", "3,200 blocks". */
export const counted = (count: number, singular: string, plural = `${singular}s`): string =>
  `${whole(count)} ${count === 1 ? singular : plural}`;

/** "a", "a and b", "a, b and c". */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

export const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "15 to 26", or the one figure where both ends are the same. */
export const between = (low: string, high: string): string => (low === high ? low : `${low} to ${high}`);

/** Ends with a full stop, unless it already ends with a sign of its own. */
export const sentence = (text: string): string => (/[.!?]["”’)]?$/.test(text) ? text : `${text}.`);

/** To a quarter of an hour, which is as fine as anybody plans. */
export const quarters = (value: number): string => String(Math.round(value * 4) / 4);

/** Hours from the shortest to the longest, in quarters. */
export const hoursBetween = ({ low, high }: Pick<Range, 'low' | 'high'>): string =>
  between(quarters(low), quarters(high));
