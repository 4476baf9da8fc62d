import { z } from 'zod';
import { readLength, systemOf } from '../quantities/length.ts';
import { readShare } from '../quantities/share.ts';
import { readWeight } from '../quantities/weight.ts';
import { say } from '../source/said.ts';
import { textOf } from '../source/spoken.ts';
import { measure } from './fields.ts';

/** Beyond these a length is a slip of the pen: the largest quilts known are show pieces, not bed covers. */
const SHORTEST = 0.125;
const LONGEST = { max: 400, said: '1/8 in and 400 in' } as const;

/** Inches. Never nothing: a side or a strip. */
export const length = () => measure(readLength, 'a length', 'in', { min: SHORTEST, ...LONGEST });

/** Inches, zero included: a gap or an allowance may be none. */
export const distance = () =>
  measure(readLength, 'a length', 'in', { min: 0, max: 400, said: '0 in and 400 in' });

/** Pounds. */
export const weight = () =>
  measure(readWeight, 'a weight', 'lb', { min: 0.05, max: 100, said: '1 oz and 100 lb' });

/** A fraction of one, from `5 %` or 0.05. */
export const share = () =>
  z.unknown().transform((raw, context): number => {
    const value = typeof raw === 'string' || typeof raw === 'number' ? readShare(raw) : undefined;
    if (value !== undefined && value <= 1) return value;
    if (raw === undefined)
      return say(context, {
        code: 'missing-key',
        what: (name, _, inGroup) => `${name} is missing from ${inGroup}`,
      });
    const bare = typeof raw === 'number' || /^\d+(\.\d+)?$/.test(textOf(raw).trim());
    const said = textOf(raw).trim();
    if (value !== undefined || /^-/.test(said) || (bare && Number(raw) > 100)) {
      return say(context, {
        code: 'out-of-range',
        what: (name) => `${name} is ${said}; a share lies between 0 % and 100 %`,
      });
    }
    if (bare) {
      return say(context, {
        code: 'bad-quantity',
        what: (name) => `${name} is ${said}, which could mean ${said} % or be a slip`,
        cure: 'Write it with the sign, such as 5 %.',
        didYouMean: `${said} %`,
      });
    }
    return say(context, {
      code: 'bad-quantity',
      what: (name, shown) => `${shown} cannot be read as a share for ${name}`,
      cure: 'Write a percentage, such as 5 %.',
    });
  });

const sideBySide = (written: string): { width: number; height: number; mixed: boolean } | undefined => {
  const [left, right, more] = written.split(/\s*[x×]\s*/i);
  if (left === undefined || right === undefined || more !== undefined) return undefined;
  const height = readLength(right);
  // "9 x 9 in": one unit for both is how people write it.
  const unit = /[^\d./\s½¼¾-].*$/.exec(right)?.[0] ?? '';
  const leftToo = readLength(left) === undefined ? `${left} ${unit}` : left;
  const width = readLength(leftToo);
  if (width === undefined || height === undefined) return undefined;
  return { width, height, mixed: systemOf(leftToo) !== systemOf(right) };
};

/** `9 in x 9 in`, width first. */
export const widthByHeight = () =>
  z.unknown().transform((raw, context): { width: number; height: number } => {
    const sides = typeof raw === 'string' ? sideBySide(raw) : undefined;
    if (sides === undefined) {
      return say(context, {
        code: 'bad-quantity',
        what: (name, shown) => `${shown} cannot be read as width x height for ${name}`,
        cure: 'Write both with their unit, width first, such as 9 in x 9 in.',
      });
    }
    const { width, height, mixed } = sides;
    if (mixed) {
      return say(context, {
        code: 'mixed-units',
        what: (name, shown) => `${name} is ${shown}: one side in inches, the other in metres`,
      });
    }
    if (Math.min(width, height) >= SHORTEST && Math.max(width, height) <= LONGEST.max)
      return { width, height };
    return say(context, {
      code: 'out-of-range',
      what: (name, shown) => `${name} is ${shown}; each side should lie between ${LONGEST.said}`,
    });
  });
