/** Set for the long tier (`npm run test:long`): loops and laws at their full length. Seeds are the same in both tiers. */
export const FULL = process.env.MENDWISE_FULL === '1';
