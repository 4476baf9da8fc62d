import type { VNode } from 'preact';
import type { Piecework } from '../../piecework/model.ts';
import { type JoiningSpec, joiningGeometry } from '../../piecework/patterns.ts';
import { counted } from '../phrases.ts';
import { layOf, lineOf, pointsOf, QuiltFrame } from './frame.tsx';
import { FAINT, INK, PAPER } from './hatch.tsx';
import type { Picture } from './picture.ts';

const STITCH = {
  stroke: INK,
  'stroke-width': 2.6,
  'stroke-dasharray': '7 4',
  'stroke-linecap': 'butt',
} as const;

/** How each kind of joining marks a point; lines have none. */
const KNOTS: Readonly<Record<string, { draw: (x: number, y: number) => string; one: string; many: string }>> =
  {
    ties: { draw: (x, y) => `M${x - 5} ${y - 5}l10 10M${x + 5} ${y - 5}l-10 10`, one: 'knot', many: 'knots' },
    tacks: { draw: (x, y) => `M${x - 4} ${y}h8`, one: 'small stitch', many: 'small stitches' },
  };

/** The plan's lines, ties or tacks drawn where they go; undefined where nothing new is sewn through the layers. */
export function fastenings(
  id: string,
  title: string,
  piecework: Piecework,
  spec: JoiningSpec,
): Picture | undefined {
  const { points, lines } = joiningGeometry(piecework, spec);
  if (points.length + lines.length === 0) return undefined;
  const lay = layOf(piecework);
  const knot = KNOTS[spec.joining] ?? KNOTS.tacks;
  if (knot === undefined) return undefined;
  const words = [
    ...(points.length > 0 ? [counted(points.length, knot.one, knot.many)] : []),
    ...(lines.length > 0 ? [counted(lines.length, 'line of stitching', 'lines of stitching')] : []),
  ];
  const description = `${words.join(' and ')}, at ${spec.pattern}.`;
  const svg: VNode = (
    <QuiltFrame id={id} title={title} description={description} piecework={piecework} lay={lay}>
      {piecework.units.map((unit) => (
        <polygon key={unit.at} points={pointsOf(unit, lay)} fill={PAPER} stroke={FAINT} stroke-width="0.8" />
      ))}
      {lines.map((line) => (
        <path key={line.id} d={lineOf(line, lay)} {...STITCH} />
      ))}
      {points.map(({ at: point }) => (
        <path
          key={`${point.x} ${point.y}`}
          d={knot.draw(lay.x(point.x), lay.y(point.y))}
          stroke={INK}
          stroke-width="3"
          stroke-linecap="round"
        />
      ))}
    </QuiltFrame>
  );
  return {
    id,
    title,
    description,
    svg,
    key: [
      ...(points.length > 0
        ? [{ swatch: <Sample d={knot.draw(12, 12)} />, mark: 'x', words: words[0] ?? '' }]
        : []),
      ...(lines.length > 0
        ? [{ swatch: <Sample d="M1 12h22" dashed />, mark: '-', words: words.at(-1) ?? '' }]
        : []),
    ],
    plain: [],
  };
}

const Sample = ({ d, dashed = false }: { d: string; dashed?: boolean }): VNode => (
  <svg class="swatch" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
    <path d={d} {...(dashed ? STITCH : { stroke: INK, 'stroke-width': 3, 'stroke-linecap': 'round' })} />
  </svg>
);
