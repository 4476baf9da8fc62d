import gammaln from '@stdlib/math-base-special-gammaln';
import { type Clock, passed } from './hazard.ts';
import type { Kind, QuiltEvidence, SeamEvidence } from './model.ts';
import type { LifePrior } from './prior.ts';
import { weakerSides } from './terms.ts';

/** Of the latent numbers, those that are on the grid. */
export interface Start {
  readonly clock: Clock;
  /** s_c: how much longer, in logs, the quilt's cloth lasts than its grades say. */
  readonly cloth: number;
}

/** A likeness before its thread is looked at. */
interface Clothed extends Start {
  readonly grades: readonly number[];
  readonly lives: readonly number[];
}

export interface Weighing {
  readonly evidence: QuiltEvidence;
  readonly prior: LifePrior;
  /** Multiplies the number of nodes. */
  readonly fineness: number;
}

/** How far hills are followed, in their own widths. */
const REACH = { fabric: 3, thread: 3.6 };

/** ln of the likelihood of what was seen of a kind of cloth, and the life it then has: median and log-spread. */
interface Weighed {
  readonly log: number;
  readonly life: number;
  readonly spread: number;
}

/** Sums over a kind's own share e of its life at a grade, once for each account of its damage. */
export function weighKind(
  told: readonly Account[],
  grade: number,
  start: Start,
  { prior, fineness }: Weighing,
): Weighed {
  const { wear, shape } = start.clock;
  const { differs, clumped } = prior;
  const spread = differs.fabric;
  const life = (prior.cloth[grade] ?? 0) * Math.exp(start.cloth);
  const sums = told.map(({ damaged, seen, logWeight }) => {
    if (seen === 0)
      return { log: logWeight + Math.log(spread * Math.sqrt(2 * Math.PI)), mean: 0, square: spread * spread };
    const { log, mean, square } = hillNodes(
      (own) =>
        wearLogLikelihood(passed(life * Math.exp(own), wear, shape), damaged, seen, clumped.units) -
        0.5 * (own / spread) ** 2,
      { top: 0, width: spread, reach: REACH.fabric, fineness },
    );
    return { log: log + logWeight, mean, square };
  });
  const log = logSum(sums.map((sum) => sum.log));
  let [mean, square] = [0, 0];
  for (const sum of sums) {
    mean += Math.exp(sum.log - log) * sum.mean;
    square += Math.exp(sum.log - log) * sum.square;
  }
  return { log, life: life * Math.exp(mean), spread: Math.sqrt(Math.max(0, square - mean * mean)) };
}

/** Where the search for the best thread begins: where the one before it, which is much alike, ended. */
export interface Search {
  top: number | undefined;
}

/** Nodes over s_t, how much longer this quilt's thread lasts, given how much longer its cloth does. */
export function threadNodes(
  { clock: { wear, shape }, cloth, grades, lives }: Clothed,
  { evidence: { kinds, seams }, prior: { differs, clumped, thread, torn }, fineness }: Weighing,
  search: Search,
): readonly Node[] {
  // cloth and thread have a part in common, so each tells something of the other
  const shared = differs.both ** 2 / differs.cloth ** 2;
  const mean = shared * cloth;
  const spread = Math.sqrt(differs.thread ** 2 - shared * differs.both ** 2);
  const sides = weakerSides(grades.map((grade, i) => ({ grade, share: kinds[i]?.share ?? 0 })));
  const hazards = grades.map((grade, i) => {
    const chi = torn[grade] ?? 0;
    return {
      share: sides[i] ?? 0,
      thread: 0,
      cloth: chi * passed(lives[i] ?? 0, wear, shape),
      life: thread[grade] ?? 0,
      byThread: 1 - chi,
    };
  });
  const logDensity = (own: number): number => {
    const from = -0.5 * ((own - mean) / spread) ** 2;
    if (seams.seen === 0) return from;
    for (const hazard of hazards)
      hazard.thread = hazard.byThread * passed(hazard.life * Math.exp(own), wear, shape);
    return seamLogLikelihood(hazards, seams, clumped.seams) + from;
  };
  const from = seams.seen === 0 ? mean : (search.top ?? mean);
  const { nodes, log, top } = hillNodes(logDensity, {
    top: from,
    width: spread,
    reach: REACH.thread,
    fineness,
  });
  search.top = top;
  return nodes.map(({ at, logWeight }) => ({ at, logWeight: logWeight + log }));
}

/** Points with the logarithms of their weights. */
export interface Node {
  readonly at: number;
  readonly logWeight: number;
}

/** `count` evenly spaced steps from −reach to reach. For what is smooth over a step, these sum as exactly as any rule. */
export const evenNodes = (count: number, reach: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => (count === 1 ? 0 : reach * ((2 * i) / (count - 1) - 1)));

/** A density summed along one line. */
interface Summed {
  /** Their weights add up to 1. */
  readonly nodes: readonly Node[];
  readonly top: number;
  /** ln of the integral, and the first two moments. */
  readonly log: number;
  readonly mean: number;
  readonly square: number;
}

/** What is known of a hill beforehand. */
interface Hill {
  /** A first guess at its top. */
  readonly top: number;
  /** It is never wider than this: the width of the prior. */
  readonly width: number;
  /** How far it is followed, in its own widths. */
  readonly reach: number;
  readonly fineness: number;
}

const SEARCHES = 12;
/** A top this near, in widths, is near enough: equal steps need no exact centre. */
const NEAR = 0.4;
/** Between nodes: of a normal density such steps lose a seven-thousandth. Never more than so much of a life, in logs. */
const STEP = 1.5;
const WIDEST = 0.4;

/**
 * Nodes for a density with one hill, given by its logarithm: evenly spaced about its top, in steps of its own width
 * there, which follows from its curvature.
 */
export function hillNodes(
  logDensity: (x: number) => number,
  { top: from, width, reach, fineness }: Hill,
): Summed {
  let [top, own] = [from, width];
  for (let i = 0; i < SEARCHES; i++) {
    const d = 0.2 * own;
    const [left, here, right] = [logDensity(top - d), logDensity(top), logDensity(top + d)];
    const bend = (left + right - 2 * here) / (d * d);
    own = bend < -1 / (width * width) ? 1 / Math.sqrt(-bend) : width;
    const move = ((right - left) / (2 * d)) * own * own;
    top += Math.max(-2 * width, Math.min(2 * width, move));
    if (Math.abs(move) < NEAR * own) break;
  }
  const each = Math.min(STEP * own, WIDEST) / fineness;
  const many = Math.round((reach * own) / each);
  const logs = Array.from({ length: 2 * many + 1 }, (_, i) => logDensity(top + (i - many) * each));
  const all = logSum(logs);
  const nodes = logs.map((log, i) => ({ at: top + (i - many) * each, logWeight: log - all }));
  let [mean, square] = [0, 0];
  for (const { at, logWeight } of nodes) {
    const weight = Math.exp(logWeight);
    mean += weight * at;
    square += weight * at * at;
  }
  return { nodes, top, log: all + Math.log(each), mean, square };
}

/** ln of the sum of exponentials. */
export function logSum(logs: readonly number[]): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const log of logs) if (log > most) most = log;
  if (most === Number.NEGATIVE_INFINITY) return most;
  let sum = 0;
  for (const log of logs) sum += Math.exp(log - most);
  return most + Math.log(sum);
}

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
