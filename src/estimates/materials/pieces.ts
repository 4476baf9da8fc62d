import type { Action } from '../../casebook/scales.ts';
import type { Piecework } from '../../piecework/model.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';

/** Shapes a unit can have, with how many of it one cut square or rectangle gives. */
export type Shape = 'rectangle' | 'side triangle' | 'corner triangle';

export interface Pieces {
  readonly shape: Shape;
  readonly count: number;
  /** Finished size; for triangles the side of the whole block. Undefined where it is not on record. */
  readonly finished: { readonly width: number; readonly height: number } | undefined;
}

/** What one fabric family needs: the pieces, and the area they cover in square inches. */
export interface FamilyPieces {
  readonly family: string | undefined;
  readonly pieces: readonly Pieces[];
  readonly area: number;
}

/** The finished size of a whole unit, where the plan's counts are of such units. */
const unitSize = ({ quilt }: Pick<Plan, 'quilt'>): Pieces['finished'] => {
  const { piecework, counting } = quilt;
  if (counting !== 'units' || piecework.kind === 'survey grid') return undefined;
  const { width, height } = piecework.unit;
  if (piecework.kind !== 'on point') return { width, height };
  return { width: width / Math.SQRT2, height: height / Math.SQRT2 };
};

/** A cover is as large as its unit, whatever that is pieced from; a new block is cut as one piece only where it is one. */
const cutWhole = ({ quilt }: Pick<Plan, 'quilt'>, action: Action): boolean =>
  action !== 'replace' || (quilt.piecework.piecesPerUnit ?? 1) === 1;

const SHAPES = { whole: 'rectangle', half: 'side triangle', quarter: 'corner triangle' } as const;

const shapesOf = (piecework: Piecework): ReadonlyMap<string, Shape> =>
  new Map(piecework.units.map(({ at, part }) => [at, SHAPES[part]]));

/** The groups with one of the given actions, by fabric family in order of letter; an unknown family comes last. */
export const piecesByFamily = (plan: Plan, actions: readonly Action[]): readonly FamilyPieces[] => {
  const finished = unitSize(plan);
  const parts = shapesOf(plan.quilt.piecework);
  const top = plan.quilt.size.width * plan.quilt.size.height;
  const families = new Map<string | undefined, GroupAction[]>();
  for (const each of plan.actions) {
    if (!actions.includes(each.action) || each.group.count === 0) continue;
    families.set(each.group.family, [...(families.get(each.group.family) ?? []), each]);
  }
  return [...families]
    .sort(([a], [b]) => ((a ?? '\uffff') < (b ?? '\uffff') ? -1 : 1))
    .map(([family, members]) => ({
      family,
      pieces: [true, false].flatMap((whole) =>
        piecesOf(
          members.filter(({ action }) => cutWhole(plan, action) === whole),
          parts,
          whole ? finished : undefined,
        ),
      ),
      area: members.reduce((sum, { group }) => sum + group.share * top, 0),
    }));
};

const piecesOf = (
  members: readonly GroupAction[],
  parts: ReadonlyMap<string, Shape>,
  finished: Pieces['finished'],
): readonly Pieces[] => {
  const counts = new Map<Shape, number>();
  const add = (shape: Shape, count: number): void => {
    counts.set(shape, (counts.get(shape) ?? 0) + count);
  };
  for (const { group } of members) {
    if (group.where === undefined) add('rectangle', group.count);
    else for (const at of group.where) add(parts.get(at) ?? 'rectangle', 1);
  }
  return [...counts].map(([shape, count]) => ({ shape, count, finished }));
};
