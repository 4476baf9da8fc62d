import type { QuiltCase } from '../casebook/model.ts';
import type { DecisionContext } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import { OPERATIONS } from '../estimates/hours.ts';
import type { Figures } from '../figures/model.ts';
import type { Range } from '../quantities/range.ts';
import { linearPosterior } from '../statistics/linear-posterior.ts';
import { normalQuantile } from '../statistics/normal.ts';
import { planDone } from './life-evidence.ts';
import { type Proposal, proposalOf } from './proposal.ts';

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
  return done.estimates.hours.operations.flatMap(({ operation, hours }): WorkedHours[] => {
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
      proposalOf(id, figures, { middle: at(0.5), low: at(0.1), high: at(0.9) }, n, posterior.effectiveSize),
    ];
  });
};
