import type { CaseChange } from '../compare.ts';

/** Changes over so many cases that none but a few can be kept: how many of each kind, and the gravest as examples. */
export interface Tally {
  readonly cases: number;
  readonly unread: number;
  readonly changed: number;
  /** Cases in which each thing comes out otherwise. */
  readonly of: Readonly<Record<string, number>>;
  /** Cases in which each changed rule had a part. */
  readonly because: Readonly<Record<string, number>>;
  /** The gravest, of equally grave ones the first. */
  readonly examples: readonly CaseChange[];
}

export const NOTHING: Tally = { cases: 0, unread: 0, changed: 0, of: {}, because: {}, examples: [] };

const GRAVEST = ['reading', 'standing', 'treatment', 'refused uses'];

/** 0 for the gravest. */
export const gravity = ({ changes }: CaseChange): number =>
  Math.min(...changes.map(({ of }) => (GRAVEST.includes(of) ? GRAVEST.indexOf(of) : GRAVEST.length)));

export const gravestFirst = (changes: readonly CaseChange[]): CaseChange[] =>
  [...changes].sort((a, b) => gravity(a) - gravity(b));

export function tallied(
  tally: Tally,
  more: { readonly cases: number; readonly unread: number; readonly changes: readonly CaseChange[] },
  keep: number,
): Tally {
  return {
    cases: tally.cases + more.cases,
    unread: tally.unread + more.unread,
    changed: tally.changed + more.changes.length,
    of: counted(
      tally.of,
      more.changes.flatMap(({ changes }) => changes.map(({ of }) => of)),
    ),
    because: counted(
      tally.because,
      more.changes.flatMap(({ because }) => because),
    ),
    examples: gravestFirst([...tally.examples, ...more.changes]).slice(0, keep),
  };
}

function counted(before: Readonly<Record<string, number>>, names: readonly string[]): Record<string, number> {
  const counts = new Map(Object.entries(before));
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return Object.fromEntries([...counts].sort(([a], [b]) => (a < b ? -1 : 1)));
}
