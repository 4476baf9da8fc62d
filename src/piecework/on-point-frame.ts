import type { Frame, JoiningLine, Stretch } from './joining-model.ts';
import type { Piecework, Point, Unit } from './model.ts';
import { alongJoins } from './stretches.ts';

/** A unit's centre on the lattice of half diagonals (see on-point.ts): p across, q down. */
const latticeOf = ({ row, column }: Unit): { readonly p: number; readonly q: number } => {
  const q = row + 1;
  return { p: 2 * column + (q % 2 === 0 ? 2 : 1), q };
};

const numberOf = (id: string): number => Number(id.slice(id.lastIndexOf('-') + 1));
const inOrder = (lines: readonly JoiningLine[]): readonly JoiningLine[] =>
  lines.toSorted((one, other) => numberOf(one.id) - numberOf(other.id));

/** Lines and crossings of blocks on point: rising lines stand for `across`, falling ones for `down`. */
export const onPointFrame = (piecework: Piecework): Frame => {
  const { rows: m, columns: n, unit, units } = piecework;
  const side = Math.hypot(unit.width, unit.height) / 2;
  const seams = inOrder(alongJoins(piecework.lines, piecework.joins, 'seam'));
  const at = (p: number, q: number): Point => ({ x: (p * unit.width) / 2, y: (q * unit.height) / 2 });

  const middles = (direction: 'rising' | 'falling'): readonly JoiningLine[] => {
    const byLine = new Map<number, { stretches: Stretch[]; ends: Point[] }>();
    for (const each of units) {
      const { p, q } = latticeOf(each);
      // A corner unit is crossed by one of the two lines only; the other just touches its tip.
      const falls = (p === 0) === (q === 0);
      if (each.part === 'quarter' && falls !== (direction === 'falling')) continue;
      const number = direction === 'rising' ? (p + q) / 2 : (p - q + 2 * m) / 2;
      const line = byLine.get(number) ?? { stretches: [], ends: [] };
      byLine.set(number, line);
      line.stretches.push({ units: [each.at], length: each.part === 'whole' ? side : side / 2 });
      if (each.part !== 'whole') line.ends.push(at(p, q));
    }
    return [...byLine].map(([number, { stretches, ends }]): JoiningLine => {
      const [one, other] = ends.toSorted((a, b) => a.x - b.x);
      const from = one ?? at(0, 0);
      return {
        id: `${direction}-middle-${number}`,
        direction,
        from,
        to: other ?? from,
        length: stretches.reduce((sum, stretch) => sum + stretch.length, 0),
        place: 'cloth',
        stretches,
      };
    });
  };

  return {
    across: { pitch: side, bands: m + n },
    down: { pitch: side, bands: m + n },
    toCentre: Math.max(unit.width, unit.height) / 2,
    crossings: piecework.crossings.map(({ at: point, units: four }) => {
      const p = Math.round((2 * point.x) / unit.width);
      const q = Math.round((2 * point.y) / unit.height);
      return {
        point: { at: point, units: four, place: 'seam' },
        across: (p + q + 1) / 2,
        down: (p - q + 2 * m + 1) / 2,
      };
    }),
    centres: units
      .filter((each) => each.part === 'whole')
      .map((each) => {
        const { p, q } = latticeOf(each);
        return { at: at(p, q), units: [each.at], place: 'cloth' };
      }),
    seams: {
      across: seams.filter((line) => line.direction === 'rising'),
      down: seams.filter((line) => line.direction === 'falling'),
    },
    middles: { across: inOrder(middles('rising')), down: inOrder(middles('falling')) },
  };
};
