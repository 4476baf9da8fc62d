import { describe, expect, it } from 'vitest';
import { CLOTH, FAINT, INK, PAPER } from '../../src/documents/pictures/hatch.tsx';
import { STYLE } from '../../src/documents/render/style.ts';

/** WCAG 2.2, "relative luminance" and "contrast ratio" (w3.org/TR/WCAG22, definitions), from memory. */
const luminance = (colour: string): number => {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((from) => {
    const share = Number.parseInt(colour.slice(from, from + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};
const contrast = (one: string, other: string): number => {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
};

const styled = (name: string): string => new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(STYLE)?.[1] ?? '';
/** WCAG 2.2, 1.4.3, text of ordinary size. */
const TEXT = 4.5;
/** WCAG 2.2, 1.4.11, lines and shapes that carry meaning. */
const SHAPE = 3;

describe('contrast', () => {
  it('is reckoned as the standard does: black on white 21, #767676 on white just above 4.5, #777777 just below', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
    expect(contrast('#767676', '#ffffff')).toBeGreaterThan(TEXT);
    expect(contrast('#777777', '#ffffff')).toBeLessThan(TEXT);
  });

  it('of papers is enough: ink and soft ink as text, thread and lines as shapes, on paper and on cloth', () => {
    expect(STYLE).toContain('background: #fff;');
    for (const ground of [PAPER, styled('cloth')])
      for (const [name, least] of [
        ['ink', TEXT],
        ['soft', TEXT],
        ['thread', SHAPE],
        ['line', SHAPE],
      ] as const)
        expect(contrast(styled(name), ground), `${name} on ${ground}`).toBeGreaterThanOrEqual(least);
  });

  it('of pictures is enough as well', () => {
    for (const ground of [PAPER, CLOTH]) expect(contrast(INK, ground)).toBeGreaterThanOrEqual(TEXT);
    expect(contrast(FAINT, PAPER)).toBeGreaterThanOrEqual(SHAPE);
  });

  it('would be found wanting in a thread of straw or pale grey', () => {
    for (const pale of ['#c9a227', '#c9c2b6']) expect(contrast(pale, PAPER)).toBeLessThan(SHAPE);
  });
});
