import type { Range } from '../quantities/range.ts';

/** What a rule, a finding or a figure rests on. */
export const EVIDENCE = [
  'published',
  'one account',
  'common practice',
  'studio experience',
  'assumption',
] as const;
export type Evidence = (typeof EVIDENCE)[number];

/** One figure of judgement from figures.yaml, whatever its unit. A single `value` has low = likely = high. */
export interface Figure extends Range {
  readonly id: string;
  readonly unit: string;
  /** Log-standard deviation, where the figure is used as a distribution. */
  readonly spread: number | undefined;
  readonly evidence: Evidence;
  readonly source: string;
  readonly since: string;
}

/** Figures by dotted id, as nested in figures.yaml: `hours.tie`, `life.rate.storage`. */
export interface Figures {
  /** The likely value. Throws ProblemError `missing-figure` naming the id. */
  number(id: string): number;
  range(id: string): Range;
  figure(id: string): Figure;
  has(id: string): boolean;
  /** Ids directly below a prefix, sorted: `below('batting.new')`. */
  below(prefix: string): readonly string[];
}
