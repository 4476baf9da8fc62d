import type { Quilt } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';
import type { Join } from '../piecework/model.ts';
import type { Plan } from '../plans/model.ts';
import { remembered } from '../quantities/once.ts';
import { setInLengths } from './holes/setting-in.ts';
import { type Layout, oncePerTop } from './holes/sewing.ts';
import { hasOld, topsOf } from './holes/tops.ts';

/** Joins a plan sews again where they are: lengths in inches. */
interface Resewn {
  readonly joins: number;
  readonly inches: number;
  /** Each inch has two sides: those in old allowances, and those in new cloth (a patch where a unit was missing). */
  readonly oldSides: number;
  readonly newSides: number;
  /** How the old sides fall on the units, where there is a map. */
  readonly over: () => ReadonlyMap<string, number>;
}

const NONE: Resewn = { joins: 0, inches: 0, oldSides: 0, newSides: 0, over: () => new Map() };

/**
 * Joins listed as open count with their own length; the others with the mean of those they may be. Joins of a unit
 * that is replaced belong to setting it in, and those of a unit taken out are sewn no more: with a map, listed ones
 * among them are left out; at most what is then left of the joins is resewn.
 */
export const resewn = ({ quilt, actions, resewn: { joins } }: Plan): Resewn => {
  if (joins <= 0) return NONE;
  const layout: Layout = { plan: { quilt, actions }, tops: topsOf({ quilt, actions }) };
  const placed = layout.tops.mapped || (quilt.counting === 'units' && quilt.joins.openAt.length > 0);
  return remembered(counted(layout), joins, () => (placed ? onThePiecework : byMean)(layout, joins));
};

const counted = oncePerTop(() => new Map<number, Resewn>());

/** The joins left to sew again, and which of them are listed as open: once for all plans of the same top. */
const sorted = oncePerTop(({ plan: { quilt }, tops }) => {
  const name = (a: string, b: string): string => (a < b ? `${a} ${b}` : `${b} ${a}`);
  const open = new Set(quilt.joins.openAt.map(({ a, b }) => name(a, b)));
  const [listed, others]: [Join[], Join[]] = [[], []];
  for (const join of quilt.piecework.joins) {
    if ([join.a, join.b].some((at) => tops.isReplaced(at) || tops.at(at) === 'gone')) continue;
    (open.has(name(join.a, join.b)) ? listed : others).push(join);
  }
  return { listed, others };
});

const onThePiecework = (layout: Layout, asked: number): Resewn => {
  const { quilt } = layout.plan;
  const { listed, others } = sorted(layout);
  // Listed joins of replaced units are among those asked for, but not among those sewn here.
  const elsewhere = quilt.joins.openAt.length - listed.length;
  // Without a map nobody knows which joins go with the units replaced, only how many.
  const spared = layout.tops.mapped ? 0 : setInLengths(layout).joins;
  const wanted = Math.max(0, asked - elsewhere - listed.length);
  const rest = Math.min(wanted, Math.max(0, others.length - spared));
  const share = {
    listed: asked < listed.length ? asked / listed.length : 1,
    others: rest / Math.max(1, others.length),
  };

  let [inches, oldSides, newSides] = [0, 0, 0];
  const each = (visit: (join: Join, share: number) => void): void => {
    for (const join of listed) visit(join, share.listed);
    if (rest > 0) for (const join of others) visit(join, share.others);
  };
  each(({ a, b, length }, part) => {
    inches += part * length;
    for (const at of [a, b]) {
      if (hasOld(layout.tops.at(at))) oldSides += part * length;
      else newSides += part * length;
    }
  });
  const over = (): ReadonlyMap<string, number> => {
    const sides = new Map<string, number>();
    each(({ a, b, length }, part) => {
      for (const at of [a, b])
        if (hasOld(layout.tops.at(at))) sides.set(at, (sides.get(at) ?? 0) + part * length);
    });
    return sides;
  };
  return { joins: share.listed * listed.length + rest, inches, oldSides, newSides, over };
};

/** Nothing is known of where: all joins are of one length. */
const byMean = (layout: Layout, asked: number): Resewn => {
  const { total, length } = layout.plan.quilt.joins;
  const left = total > 0 ? Math.max(0, total - setInLengths(layout).joins) : asked;
  const joins = Math.min(asked, left);
  return { joins, inches: joins * length, oldSides: 2 * joins * length, newSides: 0, over: () => new Map() };
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
