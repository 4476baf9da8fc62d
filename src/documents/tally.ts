import { ProblemError } from '../problems/problem.ts';
import type { Section } from './model.ts';
import type { Tally } from './pictures/picture.ts';

/** What a tally of the quilt as found is of; a tally of a plan bears the plan's name. */
export const FOUND = 'as found';

/** Counts by what they are of, from as many as there are; kinds that nothing is of are left out. */
export function tallyOf<T>(
  of: string,
  items: readonly T[],
  kind: (item: T) => string,
  count: (item: T) => number,
): Tally {
  const counts: Record<string, number> = {};
  for (const item of items) if (count(item) > 0) counts[kind(item)] = (counts[kind(item)] ?? 0) + count(item);
  return { of, counts };
}

/** Every tally of a paper: those its drawings and lists carry. */
const talliesIn = (sections: readonly Section[]): Tally[] =>
  sections
    .flatMap(({ blocks }) => blocks)
    .flatMap((block) => {
      if (block.kind === 'picture') return [block.picture.tally];
      if (block.kind === 'pictures') return block.pictures.map(({ tally }) => tally);
      return block.kind === 'table' ? [block.tally] : [];
    })
    .filter((tally) => tally !== undefined);

/**
 * Holds the drawings, lists and counts of one paper to one another and to what the paper is written from. Throws
 * ProblemError paper-contradicts-itself, with every difference: such a paper is not printed.
 */
export function compareTallies(
  sections: readonly Section[],
  truthOf: (of: string) => Tally | undefined,
): void {
  const differences = talliesIn(sections).flatMap(({ of, counts }) => {
    const truth = truthOf(of);
    if (truth === undefined) return [];
    const kinds = new Set([...Object.keys(counts), ...Object.keys(truth.counts)]);
    return [...kinds]
      .filter((kind) => (counts[kind] ?? 0) !== (truth.counts[kind] ?? 0))
      .map(
        (kind) =>
          `${kind.replaceAll('_', ' ')}: ${counts[kind] ?? 0} shown, ${truth.counts[kind] ?? 0} on record`,
      );
  });
  if (differences.length > 0)
    throw new ProblemError([
      {
        code: 'paper-contradicts-itself',
        severity: 'error',
        what: `This paper would show other counts than the case holds (${differences.join('; ')})`,
      },
    ]);
}
