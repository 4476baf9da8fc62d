import { type Outlook, outlookOf, wearCurve } from '../../../src/estimates/life/forecast.ts';
import type { Kind, QuiltEvidence } from '../../../src/estimates/life/model.ts';
import type { LifePrior } from '../../../src/estimates/life/prior.ts';
import { blurred, survivalAt, yearsUntil } from '../../../src/estimates/life/years.ts';
import { kept, pace } from './quilts.ts';
import { type Random, seeded } from './random.ts';

/*
 * Quilts with hidden lives, told by the description of the model and by none of its code: hazards, competing causes and
 * damage are written out again here.
 */

const L = -Math.log(0.95);

export interface SimulatedKind {
  readonly grade: number | Readonly<Record<number, number>>;
  readonly share: number;
  /** Whether its units were looked at. */
  readonly seen?: boolean;
}

/** What the world does otherwise than the model believes. */
export interface Twist {
  readonly shape?: number;
  /** Grades worse than graded, by kind. */
  readonly worse?: readonly number[];
  /** True wear so far and true future rate over what was told. */
  readonly moreWear?: number;
  readonly harderUse?: number;
  /** How many times as strong damage clumps. */
  readonly clumps?: number;
  /** Log-spread of a life of its own for each kind, beside what the model believes. */
  readonly ownLives?: number;
  /** Share of the units that one accident took; where causes are told, it is too. */
  readonly accident?: number;
}

export interface Regime {
  readonly name: string;
  readonly rate: number;
  readonly wear: QuiltEvidence['wear'];
  readonly units: number;
  readonly joins: number;
  /** Joins looked at. */
  readonly inspected: number;
  readonly kinds: readonly SimulatedKind[];
  /** Whether the cause of damage is told. */
  readonly told?: boolean;
  readonly twist?: Twist;
}

interface TruePart {
  readonly of: 'cloth' | 'seams';
  readonly weight: number;
  /** Hazards passed of its cloth and its thread. */
  readonly cloth: number;
  readonly thread: number;
}

interface TrueQuilt {
  readonly wear: number;
  readonly shape: number;
  readonly parts: readonly TruePart[];
}

/** One quilt of a regime, drawn from the priors (twisted or not). */
export function drawQuilt(prior: LifePrior, regime: Regime, random: Random): TrueQuilt {
  const { differs } = prior;
  const twist = regime.twist ?? {};
  const wear = trueWear(prior, regime, random) * (twist.moreWear ?? 1);
  const shape = random.lognormal(prior.shape.median, prior.shape.spread) * (twist.shape ?? 1);
  const common = differs.both * random.normal();
  const rest = (all: number): number => Math.sqrt(all ** 2 - differs.both ** 2) * random.normal();
  const [cloth, thread] = [common + rest(differs.cloth), common + rest(differs.thread)];
  const passed = (life: number): number => L / ((1 + life / wear) ** shape - 1);
  const bad = random.uniform();
  const kinds = regime.kinds.map(({ grade, share }, i) => {
    const own = Math.hypot(differs.fabric, twist.ownLives ?? 0) * random.normal();
    const real = Math.min(
      3,
      (typeof grade === 'number' ? grade : pickAt(grade, bad)) + (twist.worse?.[i] ?? 0),
    );
    return { share, grade: real, hazard: passed((prior.cloth[real] ?? 0) * Math.exp(cloth + own)) };
  });
  const threads = kinds.map(({ grade }) => passed((prior.thread[grade] ?? 0) * Math.exp(thread)));
  const seams = kinds.flatMap((one, i) =>
    kinds.map((other, j): TruePart => {
      const weaker = one.grade >= other.grade ? i : j;
      const torn = prior.torn[kinds[weaker]?.grade ?? 0] ?? 0;
      return {
        of: 'seams',
        weight: one.share * other.share,
        cloth: torn * (kinds[weaker]?.hazard ?? 0),
        thread: (1 - torn) * (threads[weaker] ?? 0),
      };
    }),
  );
  const cloths = kinds.map(
    ({ share, hazard }): TruePart => ({ of: 'cloth', weight: share, cloth: hazard, thread: 0 }),
  );
  return { wear, shape, parts: [...cloths, ...seams] };
}

function trueWear(prior: LifePrior, { wear }: Regime, random: Random): number {
  if ('known' in wear) return random.lognormal(wear.known, prior.differs.told_wear);
  const { perYear, least, age } = prior.unknownWear;
  const spread = Math.hypot(perYear.spread, wear.madeYearsAgo === undefined ? age.spread : 0);
  return random.lognormal(Math.max(least, perYear.median * (wear.madeYearsAgo ?? age.median)), spread);
}

/** The grade at this point of the chances, worst last: ungraded cloth of one quilt is bad together. */
function pickAt(chances: Readonly<Record<number, number>>, at: number): number {
  let sum = 0;
  for (const [grade, chance] of Object.entries(chances)) {
    sum += chance;
    if (at < sum) return Number(grade);
  }
  return 3;
}

/** How many of `n` are damaged, in clumps: as many as tell as much as one alone are damaged together. */
const clumped = (n: number, chance: number, clump: number, random: Random): number =>
  Math.min(n, clump * random.binomial(Math.max(1, Math.round(n / clump)), chance));

/** What a survey of it finds. */
function survey(quilt: TrueQuilt, prior: LifePrior, regime: Regime, random: Random): QuiltEvidence {
  const twist = regime.twist ?? {};
  const clump = prior.clumped.units * (twist.clumps ?? 1);
  const kinds = regime.kinds.map(({ grade, share, seen = true }, i): Kind => {
    const units = seen ? Math.max(1, Math.round(regime.units * share)) : 0;
    const chance = -Math.expm1(-(quilt.parts[i]?.cloth ?? 0));
    const damaged = seen ? clumped(units, chance, clump, random) : 0;
    const taken = seen ? Math.min(units - damaged, units * (twist.accident ?? 0)) : 0;
    const told = regime.told ?? true;
    return {
      grades: typeof grade === 'number' ? { [grade]: 1 } : grade,
      share,
      seen: told ? units - taken : units,
      worn: told ? damaged : 0,
      untold: told ? 0 : damaged + taken,
    };
  });
  return {
    wear: regime.wear,
    kinds,
    seams: seamsSeen(quilt, regime.inspected, prior.clumped.seams * (twist.clumps ?? 1), random),
    units: regime.units,
    joins: regime.joins,
  };
}

/** Joins opened by the cause that comes first, in clumps. */
function seamsSeen(
  quilt: TrueQuilt,
  inspected: number,
  clump: number,
  random: Random,
): QuiltEvidence['seams'] {
  const seams = quilt.parts.filter(({ of }) => of === 'seams');
  let [thread, cloth] = [0, 0];
  const drawn = Math.round(inspected / clump);
  for (let i = 0; i < drawn; i++) {
    const join = seams[random.pick(seams.map(({ weight }) => weight))];
    const [byThread, byCloth] = [
      random.exponential() / (join?.thread ?? 1),
      random.exponential() / (join?.cloth ?? 1),
    ];
    if (Math.min(byThread, byCloth) > 1) continue;
    if (byThread < byCloth) thread += clump;
    else cloth += clump;
  }
  return { seen: drawn * clump, thread, cloth, untold: 0 };
}

/** Further wear until the whole quilt's damage reaches a mark, its parts wearing away smoothly. */
export function wearUntil({ wear, shape, parts }: TrueQuilt, mark: number): number {
  const damage = (t: number): number => {
    const grown = (1 + t / wear) ** shape - 1;
    const gone = ({ cloth, thread }: TruePart): number => -Math.expm1(-(cloth + thread) * grown);
    const of = (which: TruePart['of']): readonly TruePart[] => parts.filter((part) => part.of === which);
    const cloth = of('cloth').reduce((sum, part) => sum + part.weight * gone(part) ** 4, 0);
    const seams = of('seams').reduce((sum, part) => sum + part.weight * gone(part), 0);
    return ((cloth + seams ** 4) / 2) ** (1 / 4);
  };
  let [low, high] = [Math.log(1e-4), Math.log(1e4)];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (damage(Math.exp(middle)) < mark) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** Further wear until then where every unit and every seam is lived out, one clump after another. */
function livedOut(quilt: TrueQuilt, regime: Regime, clump: number, random: Random): number {
  const { wear, shape, parts } = quilt;
  const events = parts.flatMap((part, index) => {
    const size = (part.of === 'cloth' ? regime.units : regime.joins) * part.weight;
    return Array.from({ length: Math.max(1, Math.round(size / clump)) }, () => ({
      index,
      at: wear * ((1 + random.exponential() / (part.cloth + part.thread)) ** (1 / shape) - 1),
    }));
  });
  const sizes = parts.map((_, index) => events.filter((event) => event.index === index).length);
  const gone = parts.map(() => 0);
  const mark = Math.max(0.05, 2 / (1 / (0.25 / regime.units + 0.25 / regime.joins)));
  events.sort((a, b) => a.at - b.at);
  for (const { index, at } of events) {
    gone[index] = (gone[index] ?? 0) + 1 / (sizes[index] ?? 1);
    const sum = (of: TruePart['of'], power: number): number =>
      parts.reduce((all, part, i) => all + (part.of === of ? part.weight * (gone[i] ?? 0) ** power : 0), 0);
    if (((sum('cloth', 4) + sum('seams', 1) ** 4) / 2) ** (1 / 4) >= mark) return at;
  }
  return Number.POSITIVE_INFINITY;
}

const SPREAD = 0.15;

/** One simulated quilt: its true years, and what the model says of them. */
interface Outcome {
  /** P(due by the true years), by the forecast. */
  readonly rank: number;
  readonly width: number;
}

interface How {
  readonly prior: LifePrior;
  readonly regime: Regime;
  /** Whether every part is lived out, or damage passes a mark drawn as the model draws it. */
  readonly lived: boolean;
}

function outcome({ prior, regime, lived }: How, random: Random): Outcome {
  const quilt = drawQuilt(prior, regime, random);
  const evidence = survey(quilt, prior, regime, random);
  const outlook = outlookOf(evidence, prior);
  const clump = prior.clumped.ahead * (regime.twist?.clumps ?? 1);
  const wear = lived ? livedOut(quilt, regime, clump, random) : wearUntil(quilt, drawnMark(outlook, random));
  const years = wear / (regime.rate * random.lognormal(1, SPREAD) * (regime.twist?.harderUse ?? 1));
  const curve = blurred(wearCurve(kept(evidence), outlook), SPREAD);
  const own = pace(regime.rate);
  const ends = [0.1, 0.9].map((p) => yearsUntil(curve, own, p, 1000));
  return { rank: 1 - survivalAt(curve, own, years), width: (ends[1] ?? 0) / Math.max(1e-3, ends[0] ?? 0) };
}

/** Gamma of the table's shape, mean one, times the mark: Marsaglia and Tsang 2000, from memory. */
export function drawnMark({ due: { shape, mark } }: Pick<Outlook, 'due'>, random: Random): number {
  const d = shape - 1 / 3;
  for (;;) {
    const z = random.normal();
    const v = (1 + z / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(1 - random.uniform()) < 0.5 * z * z + d - d * v + d * Math.log(v))
      return (mark * d * v) / shape;
  }
}

export const outcomes = (how: How, quilts: number, seed: number): readonly Outcome[] => {
  const random = seeded(seed);
  return Array.from({ length: quilts }, () => outcome(how, random));
};
