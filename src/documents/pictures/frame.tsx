import type { ComponentChildren, VNode } from 'preact';
import type { Piecework, Point, Unit } from '../../piecework/model.ts';
import { rowLetters } from '../../piecework/positions.ts';
import { at, INK } from './hatch.tsx';

/** Room for the names of rows and columns. */
const MARGIN = 32;
/** The longer side of the quilt, in the drawing's own units; 30 units across leave each 20, room for a letter. */
const LONGEST = 620;

/** Below this many units of the drawing a side, a map needs the whole width of a page to be read. */
const DENSE = 34;

/** How a quilt is laid on the drawing. */
export interface Lay {
  readonly scale: number;
  readonly width: number;
  readonly height: number;
  x(inches: number): number;
  y(inches: number): number;
  /** Size of a unit's shorter side as drawn. */
  readonly unit: number;
}

export function layOf(piecework: Piecework): Lay {
  const scale = LONGEST / Math.max(piecework.width, piecework.height);
  return {
    scale,
    width: at(piecework.width * scale + MARGIN + 4),
    height: at(piecework.height * scale + MARGIN + 4),
    x: (inches) => at(MARGIN + inches * scale),
    y: (inches) => at(MARGIN + inches * scale),
    unit: Math.min(piecework.unit.width, piecework.unit.height) * scale,
  };
}

/** A unit's outline as the `points` of a polygon. */
export const pointsOf = (unit: Unit, lay: Lay): string =>
  unit.outline.map(({ x, y }) => `${lay.x(x)},${lay.y(y)}`).join(' ');

/** A straight line between two places on the quilt, as the `d` of a path. */
export const lineOf = ({ from, to }: { from: Point; to: Point }, lay: Lay): string =>
  `M${lay.x(from.x)} ${lay.y(from.y)}L${lay.x(to.x)} ${lay.y(to.y)}`;

/** The middle of a unit, as drawn: the mean of its corners. */
export function middleOf(unit: Unit, lay: Lay): { x: number; y: number } {
  const count = unit.outline.length;
  const sum = unit.outline.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }), { x: 0, y: 0 });
  return { x: lay.x(sum.x / count), y: lay.y(sum.y / count) };
}

/** A drawing of the whole quilt, with rows and columns named as everywhere else. */
export function QuiltFrame(props: {
  id: string;
  title: string;
  description: string;
  piecework: Piecework;
  lay: Lay;
  children: ComponentChildren;
}): VNode {
  const { piecework, lay, id } = props;
  return (
    <svg
      class={lay.unit < DENSE ? 'quilt dense' : 'quilt'}
      role="img"
      viewBox={`0 0 ${lay.width} ${lay.height}`}
      aria-labelledby={`${id}-title ${id}-desc`}
      font-family="inherit"
    >
      <title id={`${id}-title`}>{props.title}</title>
      <desc id={`${id}-desc`}>{props.description}</desc>
      {props.children}
      <rect
        x={lay.x(0)}
        y={lay.y(0)}
        width={at(piecework.width * lay.scale)}
        height={at(piecework.height * lay.scale)}
        fill="none"
        stroke={INK}
        stroke-width="2"
      />
      <Names piecework={piecework} lay={lay} />
    </svg>
  );
}

/** Names of rows at the left and of columns above; every fifth where they would run into each other. */
function Names({ piecework, lay }: { piecework: Piecework; lay: Lay }): VNode {
  const size = Math.max(9, Math.min(20, lay.unit * 0.5));
  // On point the rows in between start half a block in: the outer rows name the columns.
  const whole = piecework.units.filter(({ part }) => part === 'whole');
  const heads = whole
    .filter(({ row }) => row === 0)
    .map((unit) => ({ name: unit.column, ...middleOf(unit, lay) }));
  const sides = whole
    .filter(({ column }) => column === 0)
    .map((unit) => ({ name: unit.row, ...middleOf(unit, lay) }));
  const every = (step: number) => (index: number) => index === 1 || index % step === 0;
  const xs = heads.map(({ x }) => x);
  const ys = sides.map(({ y }) => y);
  const shown = every(crowded(xs, size * 1.5) || crowded(ys, size * 1.1) ? 5 : 1);
  return (
    <g font-size={at(size)} fill={INK} text-anchor="middle">
      {heads
        .filter(({ name }) => shown(name + 1))
        .map(({ name, x }) => (
          <text key={`c${name}`} x={x} y={MARGIN - 8}>
            {name + 1}
          </text>
        ))}
      {sides
        .filter(({ name }) => shown(name + 1))
        .map(({ name, y }) => (
          <text key={`r${name}`} x={MARGIN / 2 - 1} y={y} dominant-baseline="central">
            {rowLetters(name)}
          </text>
        ))}
    </g>
  );
}

function crowded(places: readonly number[], room: number): boolean {
  const sorted = [...places].sort((a, b) => a - b);
  return sorted.some((place, index) => index > 0 && place - (sorted[index - 1] ?? 0) < room);
}
