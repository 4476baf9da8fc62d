import { GRADES } from '../../casebook/scales.ts';
import { memoizeByKey } from '../../quantities/memo.ts';
import { accounts } from './evidence.ts';
import type { Clock } from './hazard.ts';
import type { PastWear, QuiltEvidence } from './model.ts';
import type { LifePrior } from './prior.ts';
import { gradings } from './terms.ts';
import {
  evenNodes,
  logSum,
  type Node,
  type Search,
  type Start,
  threadNodes,
  type Weighing,
  weighKind,
} from './weighing.ts';

/** What one quilt may be like. All its plans are forecast from the same likenesses. */
export interface Likeness {
  /** Weights of all add up to 1. */
  readonly weight: number;
  /** Index into the clocks. */
  readonly clock: number;
  /** Grade of each kind of cloth, and the life it has: median and log-spread. */
  readonly grades: readonly number[];
  readonly lives: readonly number[];
  readonly spreads: readonly number[];
  /** What multiplies the life of other cloth of the quilt, and of its thread. */
  readonly cloth: number;
  readonly thread: number;
}

export interface Posterior {
  readonly clocks: readonly Clock[];
  readonly likenesses: readonly Likeness[];
}

/**
 * How many nodes, and how far they reach: in standard deviations, of the prior when a quilt is first looked at, of what
 * was then found when it is looked at again. Reach matters as much as number.
 */
const NODES = { toldWear: 5, wear: 9, shape: 5, cloth: 11 };
const REACH = { toldWear: 3.2, wear: 4, shape: 3, cloth: 4.5 };
const STEP = 1;

/** Logarithms of weights, beside the heaviest: what is lighter is left out, first of all before thread is looked at. */
const NEGLIGIBLE = Math.log(1e-3);
const FAR = Math.log(1e-6);

/** Where to look along one of the latent numbers, in standard deviations of its prior. */
interface Axis {
  readonly mean: number;
  readonly spread: number;
}

type Latent = 'wear' | 'shape' | 'cloth';
const LATENTS: readonly Latent[] = ['wear', 'shape', 'cloth'];
type Frame = Readonly<Record<Latent, Axis>>;

const PRIOR: Axis = { mean: 0, spread: 1 };

/** Evidence that moves a latent number, or narrows it, by more than this calls for another look where it points. */
const MOVED = 0.6;
const NARROWED = 0.75;
const LOOKS = 3;

const isElsewhere = (found: Axis, looked: Axis): boolean =>
  Math.abs(found.mean - looked.mean) > MOVED * looked.spread || found.spread < NARROWED * looked.spread;

/**
 * All the latent numbers, weighed by what was seen: summed over fixed nodes and never sampled. `fineness` multiplies the
 * nodes.
 */
export function posterior(evidence: QuiltEvidence, prior: LifePrior, fineness: number): Posterior {
  const weighing: Weighing = { evidence, prior, step: STEP * fineness };
  let frame: Frame = { wear: PRIOR, shape: PRIOR, cloth: PRIOR };
  let found = look(weighing, frame, fineness);
  for (let looks = 1; looks < LOOKS; looks++) {
    const next = frameOf(found.weighed);
    if (!LATENTS.some((of) => isElsewhere(next[of], frame[of]))) break;
    frame = next;
    found = look(weighing, frame, fineness);
  }
  const { clocks, weighed } = found;
  return {
    clocks,
    likenesses: weighed.map(({ index, grades, lives, spreads, start, thread, weight }) => ({
      weight,
      clock: index,
      grades,
      lives,
      spreads,
      cloth: Math.exp(start.cloth),
      thread: Math.exp(thread),
    })),
  };
}

/** Means and spreads of the latent numbers, as weighed; a spread never so small that the next look would miss its sides. */
function frameOf(weighed: readonly Weighted[]): Frame {
  const axis = (of: Latent): Axis => {
    let [mean, square] = [0, 0];
    for (const { at, weight } of weighed) {
      mean += weight * at[of];
      square += weight * at[of] ** 2;
    }
    return { mean, spread: Math.max(LEAST_SPREAD, Math.sqrt(Math.max(0, square - mean * mean))) };
  };
  return { wear: axis('wear'), shape: axis('shape'), cloth: axis('cloth') };
}

const LEAST_SPREAD = 0.3;

/** One node, weighed. */
interface Weighted {
  readonly index: number;
  readonly at: Readonly<Record<Latent, number>>;
  readonly start: Start;
  readonly grades: readonly number[];
  readonly lives: readonly number[];
  readonly spreads: readonly number[];
  readonly thread: number;
  readonly weight: number;
}

function look(
  weighing: Weighing,
  frame: Frame,
  fineness: number,
): { clocks: readonly Clock[]; weighed: Weighted[] } {
  const { evidence, prior } = weighing;
  const { kinds } = evidence;
  const supposed = gradings(kinds.map(({ grades }) => grades));
  const told = kinds.map((kind) => accounts(kind, prior));
  const clocks = clockNodes(evidence.wear, prior, frame, fineness);
  const cloths = nodesAlong(frame.cloth, NODES.cloth * fineness, REACH.cloth);
  const withCloth = clocks.flatMap((clock, index) =>
    cloths.flatMap((node) => {
      const start: Start = { clock, cloth: prior.differs.cloth * node.at };
      const at = { ...clock.at, cloth: node.at };
      const weigh = oncePerGrade((kind, grade) => weighKind(told[kind] ?? [], grade, start, weighing));
      return supposed.map(({ grades, weight }) => {
        const weighed = grades.map((grade, kind) => weigh(kind, grade));
        const from = clock.logWeight + node.logWeight + Math.log(weight);
        return {
          index,
          at,
          start,
          grades,
          lives: weighed.map(({ life }) => life),
          spreads: weighed.map(({ spread }) => spread),
          log: weighed.reduce((sum, { log }) => sum + log, from),
        };
      });
    }),
  );
  const search: Search = { top: undefined };
  const withThread = heaviest(withCloth, FAR).flatMap((one) =>
    threadNodes({ ...one.start, ...one }, weighing, search).map(({ at, logWeight }) => ({
      one,
      thread: at,
      log: one.log + logWeight,
    })),
  );
  const kept = heaviest(withThread, NEGLIGIBLE);
  const sum = logSum(kept.map(({ log }) => log));
  return {
    clocks,
    weighed: kept.map(({ one, thread, log }) => ({ ...one, thread, weight: Math.exp(log - sum) })),
  };
}

/** Kinds are weighed once a grade, whatever the others are supposed to be. */
function oncePerGrade<T>(weigh: (kind: number, grade: number) => T): (kind: number, grade: number) => T {
  const known = new Map<number, T>();
  return (kind, grade) => memoizeByKey(known, kind * GRADES.length + grade, () => weigh(kind, grade));
}

const odd = (count: number): number => 2 * Math.round((count - 1) / 2) + 1;

function heaviest<T extends { readonly log: number }>(all: readonly T[], beside: number): T[] {
  const most = all.reduce((top, { log }) => Math.max(top, log), Number.NEGATIVE_INFINITY);
  return all.filter(({ log }) => log >= most + beside);
}

interface ClockNode extends Clock {
  readonly at: { readonly wear: number; readonly shape: number };
  readonly logWeight: number;
}

/** Nodes along one latent number, with the weights of its prior. */
function nodesAlong({ mean, spread }: Axis, count: number, reach: number): readonly Node[] {
  return evenNodes(odd(count), reach).map((step) => {
    const at = mean + spread * step;
    return { at, logWeight: -0.5 * at * at };
  });
}

/** Nodes over wear so far and shape, which are independent before anything is seen. */
function clockNodes(wear: PastWear, prior: LifePrior, frame: Frame, fineness: number): readonly ClockNode[] {
  const { median, spread } = pastWear(wear, prior);
  const own = 'known' in wear ? 'toldWear' : 'wear';
  const shapes = nodesAlong(frame.shape, NODES.shape * fineness, REACH.shape);
  return nodesAlong(frame.wear, NODES[own] * fineness, REACH[own]).flatMap((a) =>
    shapes.map((k) => ({
      wear: median * Math.exp(spread * a.at),
      shape: prior.shape.median * Math.exp(prior.shape.spread * k.at),
      at: { wear: a.at, shape: k.at },
      logWeight: a.logWeight + k.logWeight,
    })),
  );
}

function pastWear(wear: PastWear, { differs, unknownWear }: LifePrior): { median: number; spread: number } {
  if ('known' in wear) return { median: wear.known, spread: differs.told_wear };
  const { perYear, least, age } = unknownWear;
  return {
    median: Math.max(least, perYear.median * (wear.madeYearsAgo ?? age.median)),
    spread: Math.hypot(perYear.spread, wear.madeYearsAgo === undefined ? age.spread : 0),
  };
}
