import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import type { VNode } from 'preact';
import { at, CLOTH, FAINT, INK } from './hatch.tsx';
import type { Picture } from './picture.ts';

export interface LifeRange {
  readonly name: string;
  readonly low: number;
  readonly high: number;
  /** The range in words, as everywhere else. */
  readonly words: string;
}

const WIDTH = 640;
const LEFT = 8;
const RIGHT = WIDTH - 16;
const ROW = 50;
const BAR = 12;

/** Remaining life of all options on one axis: each a spindle from the earliest to the latest likely time. */
export function lifeRanges(
  id: string,
  title: string,
  ranges: readonly LifeRange[],
  { horizon, wanted }: { readonly horizon: number; readonly wanted: number | undefined },
): Picture {
  const furthest = Math.max(1, ...ranges.map(({ high }) => high), wanted ?? 0);
  const x = scaleLinear([0, Math.min(horizon, furthest * 1.06)], [LEFT, RIGHT]);
  const height = ranges.length * ROW + 36;
  const floor = height - 28;
  const description = ranges.map(({ name, words }) => `${name}: ${words}`).join('; ');
  const svg: VNode = (
    <svg
      class="chart"
      role="img"
      viewBox={`0 0 ${WIDTH} ${height}`}
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{`${description}.`}</desc>
      {x.ticks(8).map((year) => (
        <g key={year}>
          <path d={rows(x(year), ranges.length, floor)} stroke={FAINT} stroke-width="0.6" />
          <text x={at(x(year))} y={height - 10} text-anchor="middle" font-size="13" fill={INK}>
            {year}
          </text>
        </g>
      ))}
      {wanted === undefined ? null : (
        <path
          d={rows(x(wanted), ranges.length, floor)}
          stroke={INK}
          stroke-width="2"
          stroke-dasharray="3 4"
        />
      )}
      {ranges.map((range, row) => (
        <Row key={range.name} range={range} y={row * ROW + 8} scale={x} horizon={horizon} />
      ))}
      <path d={`M${LEFT} ${floor}H${RIGHT}`} stroke={INK} stroke-width="1.4" />
    </svg>
  );
  return {
    id,
    title,
    description: `${description}.`,
    svg,
    key:
      wanted === undefined
        ? []
        : [{ swatch: <WantedSample />, mark: ':', words: `what you wish for: ${wanted} years` }],
    plain: [],
  };
}

/** An upright line at `x` that leaves the names of the rows free. */
const rows = (x: number, count: number, floor: number): string =>
  `${Array.from({ length: count }, (_, row) => `M${at(x)} ${row * ROW + 26}v20`).join('')}M${at(x)} ${floor - 4}v8`;

const WantedSample = (): VNode => (
  <svg class="swatch" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
    <path d="M12 1v22" stroke={INK} stroke-width="2" stroke-dasharray="3 4" />
  </svg>
);

function Row(props: {
  range: LifeRange;
  y: number;
  scale: (years: number) => number;
  horizon: number;
}): VNode {
  const { range, y, scale, horizon } = props;
  const name = (
    <text x={LEFT + 2} y={y + 12} font-size="15" font-weight="700" fill={INK} class="halo">
      {range.name}
      <tspan font-weight="400">{`  ${range.words}`}</tspan>
    </text>
  );
  if (range.high <= 0) return <g>{name}</g>;
  const beyond = range.high >= horizon;
  const [from, to] = [scale(Math.min(range.low, horizon)), scale(Math.min(range.high, horizon))];
  return (
    <g>
      <path
        d={spindle(from, Math.max(to, from + 3), y + 28, beyond)}
        fill={CLOTH}
        stroke={INK}
        stroke-width="1.6"
      />
      <path d={`M${at(from)} ${y + 28}H${at(to)}`} stroke={INK} stroke-width="1.6" stroke-dasharray="5 3" />
      {name}
    </g>
  );
}

/** Blunt at both ends; pointed to the right where the range goes on beyond the axis. */
function spindle(from: number, to: number, middle: number, beyond: boolean): string {
  const half = BAR / 2;
  const tip = beyond ? 0 : half;
  const outline = area<readonly [number, number]>()
    .x(([x]) => at(x))
    .y0(([, reach]) => at(middle - reach))
    .y1(([, reach]) => at(middle + reach));
  return (
    outline([
      [from, half],
      [Math.max(from, to - BAR), half],
      [to, tip],
    ]) ?? ''
  );
}
