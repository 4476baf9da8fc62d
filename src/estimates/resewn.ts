import type { Quilt } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';
import type { Join } from '../piecework/model.ts';
import type { Plan } from '../plans/model.ts';
import { memoizeByKey } from '../quantities/memo.ts';
import { hasOld, plannedTop } from './holes/planned-top.ts';
import { setInLengths } from './holes/setting-in.ts';
import { type Layout, oncePerTop } from './holes/sewing.ts';

/** Joins a plan sews again: lengths in inches. */
interface Resewn {
  readonly joins: number;
  readonly inches: number;
  /** On the old line. Each inch has two sides: those in old allowances, and those in new cloth (a patch for a missing unit). */
  readonly oldSides: number;
  readonly newSides: number;
  /** Old sides sewn beside the old line, where the cloth gave way along it. */
  readonly movedSides: number;
  /** How old sides fall on the units, where there is a map. */
  readonly over: () => ReadonlyMap<string, number>;
  readonly movedOver: () => ReadonlyMap<string, number>;
}

const nowhere = (): ReadonlyMap<string, number> => new Map();
const NONE: Resewn = {
  joins: 0,
  inches: 0,
  oldSides: 0,
  newSides: 0,
  movedSides: 0,
  over: nowhere,
  movedOver: nowhere,
};

/**
 * Joins listed as open count with their own length; the others with that of the lines they are on, or the mean of those
 * they may be. Joins of a unit that is replaced belong to setting it in, and those of a unit taken out are sewn no more:
 * with a map, listed ones among them are left out; at most what is then left of the joins is resewn.
 */
export const resewn = ({ quilt, actions, resewn: asked, pattern, directions }: Plan): Resewn => {
  if (asked.joins <= 0) return NONE;
  const layout: Layout = { plan: { quilt, actions }, tops: plannedTop({ quilt, actions }) };
  const placed = layout.tops.mapped || (quilt.counting === 'units' && quilt.joins.openAt.length > 0);
  const key = `${asked.joins} ${asked.moved} ${asked.beside === undefined ? '' : `${pattern} ${directions}`}`;
  return memoizeByKey(counted(layout), key, () => (placed ? onThePiecework : byMean)(layout, asked));
};

const counted = oncePerTop(() => new Map<string, Resewn>());

/** The joins left to sew again, and which of them are listed as open: once for all plans of the same top. */
const sorted = oncePerTop(({ plan: { quilt }, tops }) => {
  const name = (a: string, b: string): string => (a < b ? `${a} ${b}` : `${b} ${a}`);
  const causes = new Map(quilt.joins.openAt.map(({ a, b, cause }) => [name(a, b), cause]));
  const [listed, others]: [{ join: Join; torn: boolean }[], Join[]] = [[], []];
  for (const join of quilt.piecework.joins) {
    if ([join.a, join.b].some((at) => tops.isReplaced(at) || tops.at(at) === 'gone')) continue;
    const known = name(join.a, join.b);
    if (causes.has(known)) listed.push({ join, torn: causes.get(known) === 'cloth' });
    else others.push(join);
  }
  return { listed, others };
});

/** Adds what of a join is sewn on the old line, and what beside it. */
type Visit = (join: Join, onLine: number, beside: number) => void;

const onThePiecework = (layout: Layout, asked: Plan['resewn']): Resewn => {
  const { quilt } = layout.plan;
  const { listed, others } = sorted(layout);
  // Listed joins of replaced units are among those asked for, but not among those sewn here.
  const elsewhere = quilt.joins.openAt.length - listed.length;
  // Without a map nobody knows which joins go with the units replaced, only how many.
  const spared = layout.tops.mapped ? 0 : setInLengths(layout).joins;
  const wanted = Math.max(0, asked.joins - elsewhere - listed.length);
  const rest = Math.min(wanted, Math.max(0, others.length - spared));
  const open = asked.joins < listed.length ? asked.joins / listed.length : 1;
  const { beside } = asked;
  const even = rest / Math.max(1, others.length);
  const shareOf = ({ line }: Join): number => (beside === undefined ? even : (beside.get(line) ?? 0));
  // What the cloth opened and nobody placed is among the others, in proportion.
  const torn = quilt.joins.openAt.filter(({ cause }) => cause === 'cloth').length;
  const astray = rest > 0 ? Math.min(1, Math.max(0, (asked.moved ?? 0) - torn) / rest) : 0;
  const each = (visit: Visit): void => {
    for (const { join, torn: off } of listed) visit(join, off ? 0 : open, off ? open : 0);
    for (const join of others) {
      const share = shareOf(join);
      if (share > 0) visit(join, share * (1 - astray), share * astray);
    }
  };

  let [joins, inches, oldSides, newSides, movedSides] = [0, 0, 0, 0, 0];
  each(({ a, b, length }, onLine, off) => {
    joins += onLine + off;
    inches += (onLine + off) * length;
    for (const at of [a, b]) {
      if (hasOld(layout.tops.at(at))) {
        oldSides += onLine * length;
        movedSides += off * length;
      } else newSides += (onLine + off) * length;
    }
  });
  const over = (part: 'onLine' | 'off') => (): ReadonlyMap<string, number> => {
    const sides = new Map<string, number>();
    each(({ a, b, length }, onLine, off) => {
      const share = part === 'onLine' ? onLine : off;
      for (const at of share > 0 ? [a, b] : [])
        if (hasOld(layout.tops.at(at))) sides.set(at, (sides.get(at) ?? 0) + share * length);
    });
    return sides;
  };
  return { joins, inches, oldSides, newSides, movedSides, over: over('onLine'), movedOver: over('off') };
};

/** Nothing is known of where: all joins are of one length. */
const byMean = (layout: Layout, asked: Plan['resewn']): Resewn => {
  const { total, length } = layout.plan.quilt.joins;
  const left = total > 0 ? Math.max(0, total - setInLengths(layout).joins) : asked.joins;
  const joins = Math.min(asked.joins, left);
  const moved = Math.min(joins, asked.moved ?? 0);
  return {
    ...NONE,
    joins,
    inches: joins * length,
    oldSides: 2 * (joins - moved) * length,
    movedSides: 2 * moved * length,
  };
};

type Fastening = 'ties' | 'lines' | 'all_over';

/** How much there was of it in the whole quilt, worked out from the widest distance in it: knots, or inches of line. */
export interface OldJoining {
  readonly knots: number;
  readonly lines: number;
}

const area = ({ width, height }: Quilt['size']): number => width * height;

const AMOUNTS: Readonly<
  Record<
    Fastening,
    (size: Quilt['size'], gap: number | undefined, figures: Figures) => OldJoining | undefined
  >
> = {
  ties: (size, gap) => (gap === undefined ? undefined : { knots: area(size) / gap ** 2, lines: 0 }),
  // Lines both ways, as seams run.
  lines: (size, gap) => (gap === undefined ? undefined : { knots: 0, lines: (2 * area(size)) / gap }),
  all_over: (size, _, figures) => ({
    knots: 0,
    lines: area(size) * figures.number('stitching.old_all_over'),
  }),
};

/** Undefined where there was none, or where nobody said how far apart it was. */
export const oldJoining = (
  size: Quilt['size'],
  kind: Fastening | 'none' | undefined,
  gap: number | undefined,
  figures: Figures,
): OldJoining | undefined =>
  kind === undefined || kind === 'none' ? undefined : AMOUNTS[kind](size, gap, figures);

/** What is missing of it is put back, through its own holes, where the quilt is mended without any new joining. */
export const putsBack = ({ opens, joining, treatment }: Plan): boolean =>
  !opens && joining === 'none' && treatment !== 'leave';
