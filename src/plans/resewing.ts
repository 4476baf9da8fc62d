import type { Figures } from '../figures/model.ts';
import type { SurveyedQuilt } from '../findings/surveyed.ts';
import type { Join } from '../piecework/model.ts';
import { joiningGeometry } from '../piecework/patterns.ts';
import { memoizeByKey, memoizeByPair } from '../quantities/memo.ts';
import type { Plan, PlanSpec } from './model.ts';

type Amount = Omit<Plan['resewn'], 'by'>;
type Ditches = Pick<PlanSpec, 'joining' | 'pattern' | 'directions'>;

/**
 * How many joins are sewn again: those that are open, and of the closed ones a share that grows with how far the thread
 * has failed beside them. Unknown counts are planned for as none beyond what was seen open: the estimate says so, and
 * the answer stays provisional.
 */
export const resewnJoins = (quilt: SurveyedQuilt, spec: Ditches, figures: Figures): Amount => {
  const { joining, pattern, directions } = spec;
  const key = joining === 'lines' ? `${pattern} ${directions}` : '';
  return memoizeByKey(amounts(quilt, figures), key, () => amountOf(quilt, spec, figures));
};

/** Once for all plans whose lines run alike. */
const amounts = memoizeByPair((_: SurveyedQuilt, __: Figures) => new Map<string, Amount>());

const amountOf = (quilt: SurveyedQuilt, spec: Ditches, figures: Figures): Amount => {
  const { open = 0, inspected = 0, total, cloth = 0, openAt } = quilt.joins;
  if (open === 0 || inspected === 0) return { joins: open, moved: Math.min(open, cloth) };
  const { joins } = quilt.piecework;
  const placed = openAt.length === open && inspected >= total && joins.length === total;
  return placed ? byLine(quilt, spec, figures) : byRate(quilt, spec, figures);
};

/** Nobody noted where they are: the rate of the whole quilt stands for each of its lines. */
const byRate = (quilt: SurveyedQuilt, spec: Ditches, figures: Figures): Amount => {
  const { open = 0, inspected = 0, total, cloth = 0 } = quilt.joins;
  const all = Math.max(total, inspected);
  const each = all / inspected;
  const { joins } = quilt.piecework;
  const lined = linesInSeams(quilt, spec);
  const bare =
    lined.size === 0 ? 1 : joins.filter(({ line }) => !lined.has(line)).length / Math.max(1, joins.length);
  const beside = shareBeside(open - cloth, inspected, figures) * (all - open * each) * bare;
  return { joins: Math.min(all, Math.round(open * each + beside)), moved: Math.min(open, cloth) * each };
};

/** Line by line, as they were listed. */
const byLine = (quilt: SurveyedQuilt, spec: Ditches, figures: Figures): Amount => {
  const causes = new Map(quilt.joins.openAt.map(({ a, b, cause }) => [nameOf(a, b), cause]));
  const lines = new Map<string, { joins: number; open: number; torn: number }>();
  for (const join of quilt.piecework.joins) {
    const line = lines.get(join.line) ?? { joins: 0, open: 0, torn: 0 };
    const name = nameOf(join.a, join.b);
    line.joins += 1;
    if (causes.has(name)) line.open += 1;
    if (causes.get(name) === 'cloth') line.torn += 1;
    lines.set(join.line, line);
  }
  const lined = linesInSeams(quilt, spec);
  const beside = new Map<string, number>();
  let sewn = 0;
  let moved = 0;
  for (const [id, { joins, open, torn }] of lines) {
    const share = lined.has(id) ? 0 : shareBeside(open - torn, joins, figures);
    beside.set(id, share);
    sewn += open + share * (joins - open);
    moved += torn;
  }
  return { joins: Math.round(sewn), moved, beside };
};

const nameOf = (a: string, b: string): string => (a < b ? `${a} ${b}` : `${b} ${a}`);

/** Seam lines that are quilted in the ditch: there the quilting takes the load off the old thread, and that mends it. */
const linesInSeams = ({ piecework, counting }: SurveyedQuilt, spec: Ditches): ReadonlySet<Join['line']> => {
  if (spec.joining !== 'lines' || counting === 'patches') return new Set();
  const { lines } = joiningGeometry(piecework, spec);
  return new Set(lines.filter(({ place }) => place === 'seam').map(({ id }) => id));
};

/**
 * Share of the closed joins sewn again beside `loose` ones that thread or allowance opened among `joins`. It goes by how
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
