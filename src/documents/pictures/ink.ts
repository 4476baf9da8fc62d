/** The two inks of every picture. Meaning lies in pattern and letter; tone only helps. Both pass AA on paper and cloth. */
export const INK = '#1f2a44';
export const PAPER = '#ffffff';
/** For edges that only divide: 3:1 on paper. */
export const FAINT = '#767b88';
/** A light tone of cloth, on which ink keeps 11:1. */
export const CLOTH = '#ecebe4';

/** To a tenth: enough for a drawing, and the same bytes everywhere. */
export const at = (value: number): number => Math.round(value * 10) / 10;
