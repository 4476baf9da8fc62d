import { decimal } from './measure.ts';

/**
 * A fraction from `5 %`, `12.7%`, `0.05` or 0.05. A bare number above 1 is undefined, because 5 may mean 5 % or be a
 * slip; so is anything below 0. A stated percentage above 100 comes back as it is, for the reader's range to refuse.
 */
export const readShare = (value: string | number): number | undefined => {
  if (typeof value === 'number') return value >= 0 && value <= 1 ? value : undefined;
  const match = /^(\d+(?:\.\d+)?|\.\d+)\s*(%|percent|per cent)?$/.exec(value.trim().toLowerCase());
  if (match === null) return undefined;
  const number = Number(match[1]);
  // Dividing, not multiplying by 0.01, so that 7 % is the same number as 0.07.
  return match[2] === undefined ? readShare(number) : number / 100;
};

/** `12.7 %`: to a tenth unless told otherwise. RangeError if not finite. */
export const formatShare = (fraction: number, places = 1): string => `${decimal(fraction * 100, places)} %`;
