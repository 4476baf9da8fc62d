import gammaln from '@stdlib/math-base-special-gammaln';
import type { Kind, SeamEvidence } from './model.ts';
import type { LifePrior } from './prior.ts';

/** ln of x^n, where nothing to the power of nothing is one. */
const powerLog = (log: number, n: number): number => (n > 0 ? n * log : 0);

/**
 * ln likelihood of x of n parts damaged by wear when `hazard` has passed. Damage comes in clumps: the counts are
 * divided by `clump`, how many damaged parts tell as much as one that failed alone.
 */
export function wearLogLikelihood(hazard: number, x: number, n: number, clump: number): number {
  const damaged = x > 0 ? x * Math.log(-Math.expm1(-hazard)) : 0;
  return (damaged - (n - x) * hazard) / clump;
}

/**
 * ln likelihood of such a count where something else than wear did the damage, and any count was as likely: the mean of
 * the likelihood above over all chances of damage from 0 to 1, which is a beta function.
 */
export function anyCountLogLikelihood(x: number, n: number, clump: number): number {
  const [damaged, whole] = [x / clump, (n - x) / clump];
  return gammaln(damaged + 1) + gammaln(whole + 1) - gammaln(damaged + whole + 2);
}

/** What may have done the damage of one kind of cloth: how many parts it tells of, and how likely it is. */
export interface Account {
  readonly damaged: number;
  readonly seen: number;
  /** ln of the weight of this account, with the likelihood of what it does not put down to wear. */
  readonly logWeight: number;
}

/**
 * The accounts of a kind's damage: all of it by wear; or, where no cause was told of some of it, that part by something
 * else, which leaves the counts. Damage told as an accident is in neither count.
 */
export function accounts(
  { seen, worn, untold }: Kind,
  { byWear, clumped: { units } }: Pick<LifePrior, 'byWear' | 'clumped'>,
): readonly Account[] {
  if (!(untold > 0)) return [{ damaged: worn, seen, logWeight: 0 }];
  return [
    { damaged: worn + untold, seen, logWeight: Math.log(byWear) },
    {
      damaged: worn,
      seen: seen - untold,
      logWeight: Math.log(1 - byWear) + anyCountLogLikelihood(untold, seen - worn, units),
    },
  ];
}

/** Joins that wear alike: their share of all, and the hazards that have passed for their thread and their cloth. */
export interface SeamHazard {
  readonly share: number;
  readonly thread: number;
  readonly cloth: number;
}

/**
 * ln likelihood of joins opened by thread, by cloth, and by nobody knows which: two causes compete, and of those that
 * open the share of each is its share of the hazard.
 */
export function seamLogLikelihood(
  hazards: readonly SeamHazard[],
  { seen, thread, cloth, untold }: SeamEvidence,
  clump: number,
): number {
  if (seen === 0) return 0;
  let [byThread, byCloth, whole] = [0, 0, 0];
  for (const hazard of hazards) {
    const both = hazard.thread + hazard.cloth;
    const open = -Math.expm1(-both) * hazard.share;
    byThread += (open * hazard.thread) / both;
    byCloth += (open * hazard.cloth) / both;
    whole += Math.exp(-both) * hazard.share;
  }
  const log =
    powerLog(Math.log(byThread), thread) +
    powerLog(Math.log(byCloth), cloth) +
    powerLog(Math.log(byThread + byCloth), untold) +
    powerLog(Math.log(whole), seen - thread - cloth - untold);
  return log / clump;
}
