import type { Construction, JoinSurvey } from '../casebook/model.ts';
import type { Piecework } from '../piecework/model.ts';
import type { SurveyedJoins } from './surveyed.ts';

interface JoinsAsked {
  readonly joins: JoinSurvey | undefined;
  readonly piecework: Piecework;
  /** How many patches, where patches are counted and not units. */
  readonly patches: number | undefined;
  readonly construction: Construction | undefined;
}

const CAUSES = ['thread', 'cloth', 'allowance'] as const;

/** How many joins there are, how long, and what was seen of them. Counts the survey leaves out follow from the rest. */
export const surveyJoins = ({ joins = {}, piecework, patches, construction }: JoinsAsked): SurveyedJoins => {
  const listed = joins.open_at ?? [];
  const byList = listed.length > 0;
  const open = joins.open ?? (byList ? listed.length : undefined);
  const counted = CAUSES.map((cause) => {
    if (joins[cause] !== undefined) return joins[cause];
    const whole = byList && listed.every((join) => join.cause !== undefined) && listed.length === open;
    return whole ? listed.filter((join) => join.cause === cause).length : undefined;
  });
  const named = counted.reduce<number>((sum, count) => sum + (count ?? 0), 0);
  const silent = counted.filter((count) => count === undefined).length;
  const left = open === undefined ? undefined : open - named;
  // With every open seam accounted for the other causes are none; with one cause unnamed it takes the rest.
  const [thread, cloth, allowance] = counted.map((count) => {
    if (count !== undefined || left === undefined || left < 0) return count;
    if (left === 0) return 0;
    return silent === 1 ? left : undefined;
  });
  return {
    ...extent(piecework, patches, construction),
    inspected: joins.inspected,
    open: open ?? (silent === 0 ? named : undefined),
    thread,
    cloth,
    allowance,
    openAt: listed.map(({ between: [a, b], cause }) => ({ a, b, cause })),
  };
};

const extent = (
  piecework: Piecework,
  patches: number | undefined,
  construction: Construction | undefined,
): { total: number; length: number } => {
  if (patches === undefined) {
    const total = piecework.joins.length;
    const sum = piecework.joins.reduce((all, join) => all + join.length, 0);
    return { total, length: total === 0 ? 0 : sum / total };
  }
  const area = (piecework.width * piecework.height) / patches;
  // n × n hexagons have (n − 1)(3n − 1) shared sides, n × n squares 2n(n − 1): geometry of the two tilings.
  const n = Math.sqrt(patches);
  const hexagons = construction === 'hexagon';
  return {
    total: Math.max(0, Math.round(hexagons ? (n - 1) * (3 * n - 1) : 2 * n * (n - 1))),
    length: hexagons ? Math.sqrt((2 * area) / (3 * Math.sqrt(3))) : Math.sqrt(area),
  };
};
