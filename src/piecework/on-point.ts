import type { LayoutSpec } from '../casebook/model.ts';
import type {
  Crossing,
  Frame,
  Join,
  JoiningLine,
  Piecework,
  Point,
  SeamLine,
  Stretch,
  Unit,
} from './model.ts';
import { alongJoins, positionName } from './positions.ts';

/**
 * Blocks turned 45°. `rows` m and `columns` n count the whole blocks of the outer grid: the quilt is n diagonals
 * wide and m diagonals high. Between the outer rows lie m−1 rows of n−1 whole blocks, so there are
 * mn + (m−1)(n−1) whole blocks; 2(m−1) + 2(n−1) half units fill the edges and four quarter units the corners.
 * Areas add up to n diagonals × m diagonals; there are 4mn joins, all of one block side.
 *
 * Whole blocks are lettered by the rows in which they lie, outer and in-between rows alike: A1 … An, then
 * B1 … B(n−1), then C1 … Cn. A single column has nothing in between, so its blocks are A1, B1, C1 … Edge units are `top-1` … from the left, `left-1` … from the top, likewise `bottom-1`
 * and `right-1`; corners are `top-left`, `top-right`, `bottom-left`, `bottom-right`. Their row or column is −1
 * on the top or left edge, and one past the last on the bottom or right edge.
 *
 * Everything hangs on a lattice of half diagonals: unit centres where both indices are odd (outer rows) or both
 * even (in between and edges), crossings where one is odd and one even.
 */
export const layOnPoint = (
  layout: LayoutSpec,
  size: { readonly width: number; readonly height: number },
): Piecework => {
  const { rows: m, columns: n, finished } = layout;
  const unit =
    finished === undefined
      ? { width: size.width / n, height: size.height / m }
      : { width: finished.width * Math.SQRT2, height: finished.height * Math.SQRT2 };
  const side = Math.hypot(unit.width, unit.height) / 2;
  const at = (p: number, q: number): Point => ({ x: (p * unit.width) / 2, y: (q * unit.height) / 2 });
  const lattice = new Lattice(m, n);

  const units: Unit[] = [];
  const joins: Join[] = [];
  const crossings: Crossing[] = [];
  for (const [p, q] of lattice.points()) {
    if ((p + q) % 2 === 0) {
      const corners = lattice.corners(p, q);
      const share = 1 / 2 ** Number(p % (2 * n) === 0) / 2 ** Number(q % (2 * m) === 0);
      units.push({
        ...lattice.place(p, q),
        outline: corners.map(([x, y]) => at(x, y)),
        area: (unit.width * unit.height * share) / 2,
      });
    } else if (lattice.inside(p, q)) {
      crossings.push({ at: at(p, q), units: lattice.around(p, q).map(([x, y]) => lattice.place(x, y).at) });
    }
  }
  for (const [p, q] of lattice.points()) {
    if ((p + q) % 2 === 0) continue;
    // Two joins leave each seam point to the right: one falls, one rises.
    for (const [step, id] of [
      [1, `falling-${(p - q + 2 * m + 1) / 2}`],
      [-1, `rising-${(p + q + 1) / 2}`],
    ] as const) {
      if (!lattice.on(p + 1, q + step)) continue;
      const [a, b] = [lattice.place(p + 1, q).at, lattice.place(p, q + step).at];
      joins.push({ a, b, from: at(p, q), to: at(p + 1, q + step), length: side, line: id });
    }
  }
  return {
    kind: 'on point',
    rows: m,
    columns: n,
    width: n * unit.width,
    height: m * unit.height,
    unit,
    units,
    joins,
    lines: seamLines(joins),
    crossings,
    piecesPerUnit: layout.pieces_per_unit,
  };
};

/** Half diagonals from one row of whole blocks to the next. A single column has no rows in between. */
const levels = (columns: number): number => (columns === 1 ? 2 : 1);

class Lattice {
  readonly #m: number;
  readonly #n: number;
  constructor(m: number, n: number) {
    this.#m = m;
    this.#n = n;
  }
  on(p: number, q: number): boolean {
    return p >= 0 && q >= 0 && p <= 2 * this.#n && q <= 2 * this.#m;
  }
  inside(p: number, q: number): boolean {
    return p > 0 && q > 0 && p < 2 * this.#n && q < 2 * this.#m;
  }
  *points(): Generator<readonly [number, number]> {
    for (let q = 0; q <= 2 * this.#m; q += 1) for (let p = 0; p <= 2 * this.#n; p += 1) yield [p, q];
  }
  around(p: number, q: number): readonly (readonly [number, number])[] {
    return [
      [p, q - 1],
      [p + 1, q],
      [p, q + 1],
      [p - 1, q],
    ];
  }
  /** The unit's own corners that lie on the quilt; a quarter unit's third corner is the quilt's, at its centre. */
  corners(p: number, q: number): readonly (readonly [number, number])[] {
    const own = this.around(p, q).filter((corner) => this.on(...corner));
    return own.length === 2 ? [...own, [p, q]] : own;
  }
  place(p: number, q: number): Pick<Unit, 'at' | 'row' | 'column' | 'part'> {
    const row = (q - 1) / levels(this.#n);
    const column = Math.ceil(p / 2) - 1;
    const edge = q === 0 ? 'top' : q === 2 * this.#m ? 'bottom' : '';
    const end = p === 0 ? 'left' : p === 2 * this.#n ? 'right' : '';
    if (edge !== '' && end !== '') return { at: `${edge}-${end}`, row, column, part: 'quarter' };
    if (edge !== '') return { at: `${edge}-${p / 2}`, row, column, part: 'half' };
    if (end !== '') return { at: `${end}-${q / 2}`, row, column, part: 'half' };
    return { at: positionName(row, column), row, column, part: 'whole' };
  }
}

/** Each line from where its first join starts to where its last one ends; joins come top row first. */
const seamLines = (joins: readonly Join[]): readonly SeamLine[] => {
  const byLine = new Map<string, Join[]>();
  for (const join of joins) {
    const known = byLine.get(join.line);
    if (known === undefined) byLine.set(join.line, [join]);
    else known.push(join);
  }
  return [...byLine].flatMap(([id, along]): SeamLine[] => {
    const direction = id.startsWith('rising') ? 'rising' : 'falling';
    const ordered = along.toSorted((one, other) => one.from.x - other.from.x);
    const [first, last] = [ordered[0], ordered.at(-1)];
    if (first === undefined || last === undefined) return [];
    return [
      {
        id,
        direction,
        from: first.from,
        to: last.to,
        length: along.reduce((sum, join) => sum + join.length, 0),
      },
    ];
  });
};

/** A unit's centre on the lattice of half diagonals: p across, q down. */
const latticeOf = ({ row, column }: Unit, columns: number): { readonly p: number; readonly q: number } => {
  const q = row * levels(columns) + 1;
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
      const { p, q } = latticeOf(each, n);
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
        const { p, q } = latticeOf(each, n);
        return { at: at(p, q), units: [each.at], place: 'cloth' };
      }),
    seams: {
      across: seams.filter((line) => line.direction === 'rising'),
      down: seams.filter((line) => line.direction === 'falling'),
    },
    middles: { across: inOrder(middles('rising')), down: inOrder(middles('falling')) },
  };
};
