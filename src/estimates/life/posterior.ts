import { remembered } from '../../quantities/once.ts';
import { normalCdf } from '../../statistics/intervals.ts';
import type { DueHazard } from './due-hazard.ts';
import { type Lattice, logSum, NEGLIGIBLE, Ratios, STRIDE } from './lattice.ts';
import type { LifePrior } from './prior.ts';

/** What an element's evidence says, grade by grade and for each node of the wear so far. */
export interface Posterior {
  /** ln of the marginal likelihood of the evidence, given grade and age node. */
  logEvidence(grade: number, age: number): number;
  /** P(not yet due at further wear e^(base + (from + i)·step)), given grade and age node. Worked out when first asked. */
  survival(grade: number, age: number): Float64Array;
}

/** Not inspected: r itself is the wear until due, whatever the wear so far. */
export function uninspected(grid: Lattice, prior: LifePrior): Posterior {
  const curves = new Map<number, Float64Array>();
  const curve = ({ median, spread }: LifePrior['due'][number]): Float64Array =>
    Float64Array.from({ length: grid.points }, (_, i) =>
      normalCdf((Math.log(median) - grid.base - (grid.from + i) * grid.step) / spread),
    );
  const survival = (grade: number): Float64Array =>
    remembered(curves, grade, () => {
      const due = prior.due[grade];
      return due === undefined ? new Float64Array(grid.points) : curve(due);
    });
  return { logEvidence: () => 0, survival };
}

/** Inspected once: `failed` of `seen`. */
export function inspected(
  grid: Lattice,
  prior: LifePrior,
  evidence: { readonly seen: number; readonly failed: number },
  due: DueHazard,
): Posterior {
  const ratios = new Ratios(grid, evidence, due);
  const offset = (age: number): number => grid.ages[age]?.offset ?? 0;
  const known = new Map<number, { readonly logs: Float64Array; readonly logEvidence: number }>();
  const curves = new Map<number, Float64Array>();
  const key = (grade: number, age: number): number => grade * grid.ages.length + age;
  // ratio r / A of a node of r: the age's own offset away on the lattice
  const ratio = (n: number, age: number): number => n - STRIDE * offset(age);
  const weighed = (grade: number, age: number): { logs: Float64Array; logEvidence: number } =>
    remembered(known, key(grade, age), () => {
      const { first, logWeights } = grid.due(grade);
      const logs = new Float64Array(logWeights.length);
      for (let i = 0; i < logs.length; i++)
        logs[i] = (logWeights[i] ?? 0) + ratios.at(ratio(first + i, age)).logEvidence;
      return { logs, logEvidence: logSum(logs) };
    });
  const survival = (grade: number, age: number): Float64Array =>
    remembered(curves, key(grade, age), () => {
      const sum = new Float64Array(grid.points);
      const { logs, logEvidence } = weighed(grade, age);
      const probabilities = logs.map((log) => Math.exp(log - logEvidence));
      const every = stride(probabilities, due, grid, prior);
      let kept = 0;
      const { first } = grid.due(grade);
      for (let i = 0; i < probabilities.length; i++) {
        const weight = probabilities[i] ?? 0;
        const q = ratio(first + i, age);
        if (weight < NEGLIGIBLE || q % every !== 0) continue;
        kept += weight;
        // time over age shifts by the age's own offset on the lattice
        addShifted(sum, ratios.curve(q), weight, grid.margin - offset(age));
      }
      for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] ?? 0) / kept;
      return sum;
    });
  return { logEvidence: (grade, age) => weighed(grade, age).logEvidence, survival };
}

/** Nodes with any weight that curves are worked out for, at least. */
const ENOUGH = 8;

/**
 * Every how many nodes a curve is worked out: evidence is weighed at all of them, but where it leaves r wide open,
 * neighbouring curves differ little. A step never exceeds the spread of what is summed, or steps would show.
 */
function stride(
  probabilities: Float64Array,
  due: DueHazard,
  { fine }: Lattice,
  { shape }: LifePrior,
): number {
  const weighty = probabilities.reduce((count, each) => (each < NEGLIGIBLE ? count : count + 1), 0);
  return Math.max(1, Math.floor(Math.min(weighty / ENOUGH, due.spread / (fine * shape.median))));
}

function addShifted(sum: Float64Array, curve: Float64Array, weight: number, shift: number): void {
  for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] ?? 0) + weight * (curve[i + shift] ?? 0);
}
