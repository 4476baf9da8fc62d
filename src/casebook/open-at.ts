import type { JoinSurvey } from './model.ts';

const CAUSES = ['thread', 'cloth', 'allowance'] as const;

const isCause = (word: string | undefined): word is (typeof CAUSES)[number] =>
  CAUSES.some((cause) => cause === word);

export interface WrittenJoin {
  readonly a: string;
  readonly b: string;
  /** `|` side by side, `/` one above the other. */
  readonly sign: '|' | '/';
  readonly cause?: (typeof CAUSES)[number];
}

/** Reads `C4|C5 thread` or `B2/C2`; undefined where it is neither. Whether the quilt has that join is asked elsewhere. */
export const readJoin = (text: string): WrittenJoin | undefined => {
  const [, a, sign, b, cause] =
    /^\s*([A-Za-z0-9-]+)\s*([|/])\s*([A-Za-z0-9-]+)(?:\s+(\w+))?\s*$/.exec(text) ?? [];
  if (a === undefined || b === undefined || (sign !== '|' && sign !== '/')) return undefined;
  if (cause !== undefined && !isCause(cause)) return undefined;
  return { a, b, sign, ...(cause === undefined ? {} : { cause }) };
};

/** The counts that follow from joins listed one by one, where the file does not state them itself. */
export const withCounts = (joins: JoinSurvey): JoinSurvey => {
  const listed = joins.open_at;
  if (listed === undefined) return joins;
  const follows: { -readonly [K in 'open' | (typeof CAUSES)[number]]?: number } = { open: listed.length };
  // A cause is counted only where every listed join has one; otherwise the figure would be too low.
  if (listed.every((join) => join.cause !== undefined) && (joins.open ?? listed.length) === listed.length) {
    for (const cause of CAUSES) follows[cause] = listed.filter((join) => join.cause === cause).length;
  }
  return { ...follows, ...joins };
};
