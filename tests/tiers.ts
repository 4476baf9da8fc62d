/** Set for the long tier (`npm run test:long`): loops and laws at their full length. Seeds are the same in both tiers. */
export const FULL = process.env.MENDWISE_FULL === '1';

/** All of them in the long tier, every nth in the short one. */
export const sample = <T>(all: readonly T[], nth: number): readonly T[] =>
  FULL ? all : all.filter((_, index) => index % nth === 0);
