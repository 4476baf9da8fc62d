import gammaFunction from '@stdlib/math-base-special-gamma';
import gammainc from '@stdlib/math-base-special-gammainc';

/** Γ(x), x > 0. */
export const gamma = (x: number): number => gammaFunction(x);

/** Upper incomplete gamma Γ(s, x) = ∫ from x to ∞ of u^(s−1) e^(−u) du; s > 0, x ≥ 0. */
export const upperGamma = (s: number, x: number): number => gammainc(x, s, false, true);
