/** Points with the logarithms of their weights. */
export interface Node {
  readonly at: number;
  readonly logWeight: number;
}

/** `count` evenly spaced steps from −reach to reach. For what is smooth over a step, these sum as exactly as any rule. */
export const evenNodes = (count: number, reach: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => (count === 1 ? 0 : reach * ((2 * i) / (count - 1) - 1)));

/** A density summed along one line. */
export interface Summed {
  readonly nodes: readonly Node[];
  readonly top: number;
  /** ln of the integral. */
  readonly log: number;
}

const STEPS = 12;
/** A top this near, in widths, is near enough: equal steps need no exact centre. */
const NEAR = 0.1;

/** What is known of a hill beforehand. */
export interface Hill {
  /** A first guess at its top. */
  readonly top: number;
  /** It is never wider than this: the width of the prior. */
  readonly width: number;
  /** How far it is followed, in its own widths, and how many nodes a width has. */
  readonly reach: number;
  readonly step: number;
}

/**
 * Nodes for a density with one hill, given by its logarithm: evenly spaced about its top, in steps of its own width
 * there, which follows from its curvature.
 */
export function hillNodes(logDensity: (x: number) => number, hill: Hill): Summed {
  const { width, reach, step } = hill;
  let [top, own] = [hill.top, width];
  for (let i = 0; i < STEPS; i++) {
    const d = 0.2 * own;
    const [left, here, right] = [logDensity(top - d), logDensity(top), logDensity(top + d)];
    const bend = (left + right - 2 * here) / (d * d);
    own = bend < -1 / (width * width) ? 1 / Math.sqrt(-bend) : width;
    const move = ((right - left) / (2 * d)) * own * own;
    top += Math.max(-2 * width, Math.min(2 * width, move));
    if (Math.abs(move) < NEAR * own) break;
  }
  const each = own / step;
  const many = Math.round(reach * step);
  const nodes: Node[] = [];
  for (let i = -many; i <= many; i++) {
    const at = top + i * each;
    nodes.push({ at, logWeight: logDensity(at) });
  }
  return { nodes, top, log: logSum(nodes.map(({ logWeight }) => logWeight)) + Math.log(each) };
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
