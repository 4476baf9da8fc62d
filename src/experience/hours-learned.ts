import type { QuiltCase, Resurvey, Survey } from '../casebook/model.ts';
import type { UnitState } from '../casebook/scales.ts';
import type { DecisionContext } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import { OPERATIONS } from '../estimates/hours.ts';
import { betaBinomial } from '../estimates/model.ts';
import type { Figures } from '../figures/model.ts';
import type { Range } from '../quantities/range.ts';
import { normalQuantile } from '../statistics/intervals.ts';
import { linearPosterior } from '../statistics/linear-posterior.ts';
import { planDone } from './life-evidence.ts';
import { type Proposal, proposalOf, threeDigits } from './proposal.ts';

/** Hours of one operation on one finished quilt, as worked and as estimated by the shipped figures. */
export interface WorkedHours {
  readonly case: string;
  readonly operation: string;
  readonly worked: number;
  readonly estimated: Range;
}

/** Names of every operation, in the order of the work. */
export const OPERATION_NAMES: readonly string[] = OPERATIONS.map(({ name }) => name);

/** Hours of a finished quilt by operation; what was not logged at all is not taken for no time. */
export const workedHours = (quiltCase: QuiltCase, context: DecisionContext): WorkedHours[] => {
  const { completed, log = [] } = quiltCase;
  if (completed === undefined || log.length === 0) return [];
  const done = planDone(evaluate(quiltCase, context));
  if (done === undefined) return [];
  return done.estimator.hours().operations.flatMap(({ operation, hours }): WorkedHours[] => {
    const entries = log.filter((entry) => entry.operation === operation);
    const worked = entries.reduce((sum, entry) => sum + entry.hours, 0);
    return worked > 0 && hours.likely > 0
      ? [{ case: quiltCase.case, operation, worked, estimated: hours }]
      : [];
  });
};

/** One operation over all finished quilts. */
export interface OperationRecord {
  readonly operation: string;
  readonly cases: number;
  readonly worked: number;
  readonly estimated: number;
  /** Quilts whose hours lay between low and high. */
  readonly inRange: number;
}

export const operationRecords = (all: readonly WorkedHours[]): OperationRecord[] =>
  OPERATION_NAMES.flatMap((operation) => {
    const own = all.filter((one) => one.operation === operation);
    if (own.length === 0) return [];
    const sum = (of: (one: WorkedHours) => number): number => own.reduce((total, one) => total + of(one), 0);
    return [
      {
        operation,
        cases: own.length,
        worked: sum(({ worked }) => worked),
        estimated: sum(({ estimated }) => estimated.likely),
        inRange: own.filter(({ worked, estimated }) => worked >= estimated.low && worked <= estimated.high)
          .length,
      },
    ];
  });

const Z = normalQuantile(0.9);
const NARROWEST = 0.1;

/** Log-spread that an estimate's own range allows one quilt. */
const spreadOf = ({ low, high }: Range): number =>
  Math.max(NARROWEST, Math.log(high / Math.max(low, 1e-6)) / (2 * Z));

/**
 * Hours figures after what was logged: the figure is its shipped value times e^θ, θ normal about 0 with the spread
 * `experience.unsure.hours`; the logarithm of worked over estimated is normal about θ with the spread of that quilt's
 * own range. Several operations may stand on one figure.
 */
export const hoursProposals = (
  all: readonly WorkedHours[],
  figures: { readonly prior: Figures; readonly now: Figures },
): Proposal[] => {
  const least = figures.now.number('experience.least_cases');
  const unsure = figures.now.number('experience.unsure.hours');
  const ids = [...new Set(OPERATIONS.flatMap(({ figure }) => figure ?? []))];
  return ids.flatMap((id) => {
    const names = new Set(OPERATIONS.filter(({ figure }) => figure === id).map(({ name }) => name));
    const own = all.filter(({ operation }) => names.has(operation));
    const n = new Set(own.map((one) => one.case)).size;
    if (n < least) return [];
    const posterior = linearPosterior(
      own.map(({ worked, estimated }) => {
        const [at, spread] = [Math.log(worked / estimated.likely), spreadOf(estimated)];
        return { weights: [1], logLikelihood: (sum: number) => -0.5 * ((at - sum) / spread) ** 2 };
      }),
      [unsure],
    );
    const at = (share: number): number => posterior.quantile(0, share);
    return [
      proposalOf(
        id,
        figures,
        { middle: at(0.5), low: at(0.1), high: at(0.9) },
        { n, effectiveSize: posterior.effectiveSize },
      ),
    ];
  });
};

/** What came to light when a quilt was opened. */
export interface HiddenDamage {
  readonly case: string;
  /** Units thought sound, or worn only, before. */
  readonly thoughtSound: number;
  /** Of those, found holed, slit, lost or missing. */
  readonly found: number;
}

const DAMAGED: readonly UnitState[] = ['hole', 'split', 'lost', 'missing'];
const SOUND: readonly UnitState[] = ['sound', 'worn'];

/** Hidden damage of a quilt that was opened; undefined where it was not, or where either look had no map or counts. */
export const hiddenDamage = (quiltCase: QuiltCase): HiddenDamage | undefined => {
  let before: Pick<Survey, 'units' | 'counts'> = quiltCase.survey;
  for (const later of quiltCase.resurveys) {
    const states = later.units ?? later.counts;
    if (later.opened === true && states !== undefined) return compared(quiltCase.case, before, later);
    if (states !== undefined) before = later;
  }
  return undefined;
};

const compared = (
  name: string,
  before: Pick<Survey, 'units' | 'counts'>,
  after: Pick<Resurvey, 'units' | 'counts'>,
): HiddenDamage | undefined => {
  if (before.units !== undefined && after.units !== undefined) {
    const pairs = before.units.flatMap((row, r) =>
      row.map((state, c) => [state, after.units?.[r]?.[c]] as const),
    );
    const sound = pairs.filter(([was]) => SOUND.includes(was));
    const found = sound.filter(([, is]) => is !== undefined && DAMAGED.includes(is)).length;
    return { case: name, thoughtSound: sound.length, found };
  }
  const was = tally(before);
  const is = tally(after);
  if (was === undefined || is === undefined) return undefined;
  const thoughtSound = was.of - was.damaged;
  return { case: name, thoughtSound, found: Math.min(thoughtSound, Math.max(0, is.damaged - was.damaged)) };
};

const tally = ({
  units,
  counts,
}: Pick<Survey, 'units' | 'counts'>): { of: number; damaged: number } | undefined => {
  if (units !== undefined) {
    const all = units.flat();
    return { of: all.length, damaged: all.filter((state) => DAMAGED.includes(state)).length };
  }
  if (counts === undefined) return undefined;
  const { hole = 0, split = 0, lost = 0, missing = 0 } = counts;
  return { of: counts.of, damaged: hole + split + lost + missing };
};

/**
 * The share of hidden damage after what was found: log-odds normal about the shipped share's with the spread
 * `experience.unsure.hidden`; found follows a beta-binomial with the shipped strength.
 */
export const hiddenProposal = (
  all: readonly HiddenDamage[],
  figures: { readonly prior: Figures; readonly now: Figures },
): Proposal[] => {
  const opened = all.filter(({ thoughtSound }) => thoughtSound > 0);
  const n = opened.length;
  if (n < figures.now.number('experience.least_cases')) return [];
  const id = 'hours.hidden.share';
  const prior = figures.prior.number(id);
  const strength = figures.prior.number('hours.hidden.strength');
  const shareAt = (theta: number): number => 1 / (1 + Math.exp(-(Math.log(prior / (1 - prior)) + theta)));
  const posterior = linearPosterior(
    opened.map(({ thoughtSound: of, found }) => ({
      weights: [1],
      logLikelihood: (theta: number) => {
        const share = shareAt(theta);
        return Math.log(betaBinomial(of, share * strength, (1 - share) * strength)[found] ?? 0);
      },
    })),
    [figures.now.number('experience.unsure.hidden')],
  );
  const at = (share: number): number => threeDigits(shareAt(posterior.quantile(0, share)));
  return [
    {
      figure: id,
      unit: figures.prior.figure(id).unit,
      prior,
      now: figures.now.number(id),
      proposed: at(0.5),
      low: at(0.1),
      high: at(0.9),
      n,
      effectiveSize: posterior.effectiveSize,
      factor: at(0.5) / prior,
    },
  ];
};
