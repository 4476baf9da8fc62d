import { type Account, seamLogLikelihood, wearLogLikelihood } from './evidence.ts';
import { weakerSides } from './grades.ts';
import { type Clock, passed } from './hazard.ts';
import type { QuiltEvidence } from './model.ts';
import type { LifePrior } from './prior.ts';
import { hillNodes, logSum, type Node } from './quadrature.ts';

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
  /** Nodes in the width of a hill. */
  readonly step: number;
}

/** How far hills are followed, in their own widths. */
const REACH = { fabric: 3, thread: 4 };

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
  { prior, step }: Weighing,
): Weighed {
  const { wear, shape } = start.clock;
  const { differs, clumped } = prior;
  const spread = differs.fabric;
  const life = (prior.cloth[grade] ?? 0) * Math.exp(start.cloth);
  const sums = told.map(({ damaged, seen, logWeight }) => {
    if (seen === 0)
      return { log: logWeight + Math.log(spread * Math.sqrt(2 * Math.PI)), mean: 0, square: spread * spread };
    const { nodes, log } = hillNodes(
      (own) =>
        wearLogLikelihood(passed(life * Math.exp(own), wear, shape), damaged, seen, clumped.units) -
        0.5 * (own / spread) ** 2,
      { top: 0, width: spread, reach: REACH.fabric, step },
    );
    const all = logSum(nodes.map((node) => node.logWeight));
    let [mean, square] = [0, 0];
    for (const node of nodes) {
      const weight = Math.exp(node.logWeight - all);
      mean += weight * node.at;
      square += weight * node.at * node.at;
    }
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
  { evidence: { kinds, seams }, prior: { differs, clumped, thread, torn }, step }: Weighing,
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
  const { nodes, log, top } = hillNodes(logDensity, { top: from, width: spread, reach: REACH.thread, step });
  search.top = top;
  const total = logSum(nodes.map(({ logWeight }) => logWeight));
  return nodes.map(({ at, logWeight }) => ({ at, logWeight: logWeight - total + log }));
}
