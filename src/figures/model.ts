import { ProblemError } from '../problems/problem.ts';
import type { Range } from '../quantities/range.ts';
import { suggest } from '../source/suggest.ts';

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

/** Figures that can also be listed, so that they can be kept and made again from the list. */
interface FigureSet extends Figures {
  readonly list: readonly Figure[];
  /** The file they are reported under. */
  readonly file: string;
}

export const isFigureSet = (figures: Figures): figures is FigureSet => 'list' in figures && 'file' in figures;

/** Figures by id. A figure asked for and not there is a fault of the file, and is reported as one. */
export const figureSet = (list: readonly Figure[], file: string): FigureSet => {
  const byId = new Map(list.map((figure) => [figure.id, figure]));
  const children = childNames([...byId.keys()]);
  const figure = (id: string): Figure => {
    const found = byId.get(id);
    if (found !== undefined) return found;
    const near = suggest(id, [...byId.keys()]);
    throw new ProblemError([
      {
        code: 'missing-figure',
        severity: 'error',
        what: `${file} has no figure ${id}`,
        ...(near === undefined ? {} : { didYouMean: near }),
      },
    ]);
  };
  return {
    list,
    file,
    figure,
    number: (id) => figure(id).likely,
    range: (id): Range => {
      const { low, likely, high } = figure(id);
      return { low, likely, high };
    },
    has: (id) => byId.has(id),
    below: (prefix) => children.get(prefix) ?? [],
  };
};

/** For every group the names one level below it, sorted: `below('batting')` gives `wool`, not `batting.wool`. */
const childNames = (ids: readonly string[]): ReadonlyMap<string, readonly string[]> => {
  const sets = new Map<string, Set<string>>();
  for (const id of ids) {
    const parts = id.split('.');
    for (const [depth, name] of parts.entries()) {
      if (depth === 0) continue;
      const parent = parts.slice(0, depth).join('.');
      sets.set(parent, (sets.get(parent) ?? new Set<string>()).add(name));
    }
  }
  return new Map([...sets].map(([parent, names]) => [parent, [...names].sort()]));
};
