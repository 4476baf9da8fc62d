import { joinKey } from '../casebook/positions.ts';
import type { Figures } from '../figures/model.ts';
import type { SurveyedQuilt } from '../findings/surveyed.ts';
import { toldOfJoins } from '../findings/told-causes.ts';
import type { Join } from '../piecework/model.ts';
import { joiningGeometry } from '../piecework/patterns.ts';
import type { Plan, PlanSpec } from './model.ts';

type Amount = Omit<Plan['resewn'], 'by'>;
type Ditches = Pick<PlanSpec, 'joining' | 'pattern' | 'directions'>;

/**
 * How many joins are sewn again: those that are open, and of the closed ones a share that grows with how far the thread
 * has failed beside them. Unknown counts are planned for as none beyond what was seen open: the estimate says so, and
 * the answer stays provisional.
 */
export const resewnJoins = (quilt: SurveyedQuilt, spec: Ditches, figures: Figures): Amount => {
  const { open = 0, inspected = 0, total, cloth = 0, openAt } = quilt.joins;
  if (open === 0 || inspected === 0) return { joins: open, moved: Math.min(open, cloth) };
  const { joins } = quilt.piecework;
  const placed = openAt.length === open && inspected >= total && joins.length === total;
  return placed ? byLine(quilt, spec, figures) : byRate(quilt, spec, figures);
};

/**
 * Nobody noted where they are: they may lie on any of the seam lines, so that as many are planned for as would be on
 * average if they were listed. Where the lines are not known the whole quilt is one of them.
 */
const byRate = (quilt: SurveyedQuilt, spec: Ditches, figures: Figures): Amount => {
  const { open = 0, inspected = 0, total, cloth = 0 } = quilt.joins;
  const all = Math.max(total, inspected);
  const each = all / inspected;
  const { joins } = quilt.piecework;
  const share =
    joins.length === all
      ? besideAnywhere(quilt, spec, figures)
      : shareBeside(byThread(quilt), inspected, figures);
  const sewn = open * each + share * (all - open * each);
  return { joins: Math.min(all, Math.round(sewn)), moved: Math.min(open, cloth) * each };
};

/** Open joins that say something of the thread beside them: not torn, and not opened by an accident. */
const byThread = (quilt: SurveyedQuilt): number => {
  const { open = 0, cloth = 0 } = quilt.joins;
  return (open - cloth) * (1 - toldOfJoins(quilt).nothing);
};

/** Share of the closed joins sewn again, on average over all ways in which the open ones may lie on the lines. */
const besideAnywhere = (quilt: SurveyedQuilt, spec: Ditches, figures: Figures): number => {
  const { inspected = 1 } = quilt.joins;
  const { joins } = quilt.piecework;
  const all = joins.length;
  const loose = Math.round((byThread(quilt) * all) / inspected);
  const lined = linesInSeams(quilt, spec);
  const sizes = [...countBy(joins.map((join) => join.line))].filter(([line]) => !lined.has(line));
  let beside = 0;
  for (const [size, lines] of countBy(sizes.map(([, joined]) => joined)))
    for (const [on, chance] of spread({ size, loose, all }))
      beside += lines * chance * shareBeside(on, size, figures) * (size - on);
  return beside / Math.max(1, all - loose);
};

const countBy = <T>(names: readonly T[]): ReadonlyMap<T, number> => {
  const counts = new Map<T, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts;
};

/**
 * How many of the `loose` joins among `all` lie on one line of `size`, and how likely that is: hypergeometric, each chance
 * from the one before.
 */
function spread({ size, loose, all }: { size: number; loose: number; all: number }): [number, number][] {
  const weights: [number, number][] = [];
  let weight = 1;
  for (let on = Math.max(0, size - (all - loose)); on <= Math.min(loose, size); on += 1) {
    weights.push([on, weight]);
    weight *= ((loose - on) * (size - on)) / ((on + 1) * (all - loose - size + on + 1));
  }
  const sum = weights.reduce((total, [, each]) => total + each, 0);
  return weights.map(([on, each]) => [on, each / sum]);
}

/** Line by line, as they were listed. */
const byLine = (quilt: SurveyedQuilt, spec: Ditches, figures: Figures): Amount => {
  const causes = new Map(quilt.joins.openAt.map(({ a, b, cause }) => [joinKey(a, b), cause]));
  const lines = new Map<string, { joins: number; open: number; torn: number; loose: number }>();
  for (const join of quilt.piecework.joins) {
    const line = lines.get(join.line) ?? { joins: 0, open: 0, torn: 0, loose: 0 };
    const name = joinKey(join.a, join.b);
    line.joins += 1;
    if (causes.has(name)) line.open += 1;
    if (causes.get(name) === 'cloth') line.torn += 1;
    else if (causes.has(name)) line.loose += 1 - toldOfJoins(quilt, name).nothing;
    lines.set(join.line, line);
  }
  const lined = linesInSeams(quilt, spec);
  const beside = new Map<string, number>();
  let sewn = 0;
  let moved = 0;
  for (const [id, { joins, open, torn, loose }] of lines) {
    const share = lined.has(id) ? 0 : shareBeside(loose, joins, figures);
    beside.set(id, share);
    sewn += open + share * (joins - open);
    moved += torn;
  }
  return { joins: Math.round(sewn), moved, beside };
};

/** Seam lines that are quilted in the ditch: there the quilting takes the load off the old thread, and that mends it. */
const linesInSeams = ({ piecework, counting }: SurveyedQuilt, spec: Ditches): ReadonlySet<Join['line']> => {
  if (spec.joining !== 'lines' || counting === 'patches') return new Set();
  const { lines } = joiningGeometry(piecework, spec);
  return new Set(lines.filter(({ place }) => place === 'seam').map(({ id }) => id));
};

/**
 * Share of the closed joins sewn again beside `loose` ones that thread or allowance opened, by no accident, among `joins`. It goes by how
 * many of an open join's fellows are open too: one alone is an accident, and says nothing of the thread beside it.
 * Straight from mark to mark, so that no join more or less open turns the whole quilt over.
 */
const shareBeside = (loose: number, joins: number, figures: Figures): number => {
  const rate = (loose - 1) / Math.max(1, joins - 1);
  const mark = (name: string): number => figures.number(`plans.resew.beside.${name}`);
  const [none, some, all] = [mark('none_up_to'), mark('some_at'), mark('all_from')];
  if (rate <= none) return 0;
  if (rate >= all) return 1;
  const first = mark('some');
  return rate < some
    ? (first * (rate - none)) / (some - none)
    : first + ((1 - first) * (rate - some)) / (all - some);
};
