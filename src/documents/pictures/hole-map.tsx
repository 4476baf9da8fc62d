import { scaleSqrt } from 'd3-scale';
import type { VNode } from 'preact';
import type { Piecework } from '../../piecework/model.ts';
import { whole } from '../../quantities/rounding.ts';
import { layOf, middleOf, pointsOf, QuiltFrame } from './frame.tsx';
import { at, FAINT, INK, Letter, PAPER } from './hatch.tsx';
import type { Picture } from './picture.ts';

/** Below this many units of the drawing there is no room for a figure in a unit. */
const ROOM_FOR_FIGURES = 70;
/** Share of a unit's side that the largest disc takes across. */
const LARGEST = 0.82;

/** Where the new holes in old cloth fall: a disc in each unit, its area in proportion to their number. */
export function holeMap(
  id: string,
  title: string,
  piecework: Piecework,
  holes: Readonly<Record<string, number>>,
): Picture {
  const lay = layOf(piecework);
  const most = Math.max(1, ...Object.values(holes));
  const total = Object.values(holes).reduce((sum, count) => sum + count, 0);
  const radius = scaleSqrt([0, most], [0, (lay.unit * (piecework.kind === 'on point' ? 0.6 : LARGEST)) / 2]);
  const figures = lay.unit >= ROOM_FOR_FIGURES;
  const none = piecework.units.filter(({ at: position }) => (holes[position] ?? 0) === 0).length;
  const description = `${whole(total)} new holes in the old cloth of the front; at most ${whole(most)} in one place, none in ${whole(none)} of ${whole(piecework.units.length)} places.`;
  const svg: VNode = (
    <QuiltFrame id={id} title={title} description={description} piecework={piecework} lay={lay}>
      {piecework.units.map((unit) => (
        <polygon key={unit.at} points={pointsOf(unit, lay)} fill={PAPER} stroke={FAINT} stroke-width="0.8" />
      ))}
      {piecework.units.map((unit) => {
        const count = holes[unit.at] ?? 0;
        if (count === 0) return null;
        const { x, y } = middleOf(unit, lay);
        return (
          <g key={unit.at}>
            <circle
              cx={x}
              cy={y}
              r={at(Math.max(1, radius(count)))}
              fill={INK}
              fill-opacity="0.28"
              stroke={INK}
            />
            {figures ? (
              <Letter x={x} y={y} size={at(Math.min(22, lay.unit * 0.28))}>
                {whole(count)}
              </Letter>
            ) : null}
          </g>
        );
      })}
    </QuiltFrame>
  );
  const samples = [...new Set([most, Math.round(most / 4)])].filter((count) => count > 0);
  return {
    id,
    title,
    description,
    svg,
    key: samples.map((count) => ({
      swatch: (
        <svg class="swatch" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
          <circle
            cx="12"
            cy="12"
            r={at(11 * Math.sqrt(count / most))}
            fill={INK}
            fill-opacity="0.28"
            stroke={INK}
          />
        </svg>
      ),
      mark: 'o',
      words: `${whole(count)} new holes in one block`,
    })),
    plain: [],
  };
}
