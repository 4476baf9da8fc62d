import { gridFrame } from './grid.ts';
import type {
  Directions,
  Frame,
  Joining,
  JoiningGeometry,
  JoiningLine,
  JoiningPoint,
  Pattern,
  Piecework,
} from './model.ts';
import { onPointFrame } from './on-point.ts';

export type {
  Directions,
  Joining,
  JoiningGeometry,
  JoiningLine,
  JoiningPoint,
  Pattern,
  Place,
} from './model.ts';

/** What is asked for: how it is joined, where, and which way lines run. */
export interface JoiningSpec {
  readonly joining: Joining;
  readonly pattern: Pattern;
  readonly directions: Directions;
}

const FRAMES: Readonly<Record<Piecework['kind'], (piecework: Piecework) => Frame>> = {
  'edge to edge': gridFrame,
  sashed: gridFrame,
  'on point': onPointFrame,
  'survey grid': gridFrame,
};

type Laid = Omit<JoiningGeometry, 'length'>;
type Layer = (frame: Frame, directions: Directions, open: number) => Laid;

const ways = (directions: Directions): readonly ('across' | 'down')[] =>
  directions === 'both' ? ['across', 'down'] : [directions];

const everyNth = (step: number) => (_: unknown, index: number) => (index + 1) % step === 0;

/** The wider of the two spacings, counted in steps of `step` lines; no wider than the quilt. */
const spacing = (frame: Frame, step: number, directions: Directions): number =>
  Math.max(...ways(directions).map((way) => Math.min(step, frame[way].bands) * frame[way].pitch));

/** Points at the crossings of every nth line with every nth; where there is no such crossing only the edge holds. */
const crossings =
  (step: number): Layer =>
  (frame, _, open) => {
    const kept = frame.crossings.filter(({ across, down }) => across % step === 0 && down % step === 0);
    return {
      points: kept.map(({ point }) => point),
      lines: [],
      gap: kept.length > 0 ? spacing(frame, step, 'both') : open,
    };
  };

const lines =
  (step: number): Layer =>
  (frame, directions, open) => {
    const kept: readonly JoiningLine[] = ways(directions).flatMap((way) =>
      frame.seams[way].filter(everyNth(step)),
    );
    return { points: [], lines: kept, gap: kept.length > 0 ? spacing(frame, step, directions) : open };
  };

/** Each pattern answers for where its stitches go and for the gap it leaves. `open` is the gap with no stitches. */
const PATTERNS: Readonly<Record<Pattern, Layer>> = {
  none: (_, __, open) => ({ points: [], lines: [], gap: open }),
  'every crossing': crossings(1),
  'every second crossing': crossings(2),
  'crossings and centres': (frame) => {
    const points: readonly JoiningPoint[] = [...frame.crossings.map(({ point }) => point), ...frame.centres];
    return {
      points,
      lines: [],
      gap: frame.crossings.length > 0 ? frame.toCentre : spacing(frame, 1, 'both'),
    };
  },
  'every seam': lines(1),
  'every second seam': lines(2),
  'every seam and mid-unit': (frame, directions) => ({
    points: [],
    lines: ways(directions).flatMap((way) => [...frame.seams[way], ...frame.middles[way]]),
    gap: spacing(frame, 1, directions) / 2,
  }),
};

const laid = new WeakMap<Piecework, Map<string, JoiningGeometry>>();
const frames = new WeakMap<Piecework, Frame>();

const frameOf = (piecework: Piecework): Frame => {
  const known = frames.get(piecework);
  if (known !== undefined) return known;
  const frame = FRAMES[piecework.kind](piecework);
  frames.set(piecework, frame);
  return frame;
};

/** Where new joining goes: points for ties and tacks, lines with the units they run through. Worked out once. */
export const joiningGeometry = (piecework: Piecework, spec: JoiningSpec): JoiningGeometry => {
  const pattern = spec.joining === 'none' ? 'none' : spec.pattern;
  const key = `${pattern} ${spec.directions}`;
  const known = laid.get(piecework) ?? new Map<string, JoiningGeometry>();
  laid.set(piecework, known);
  const before = known.get(key);
  if (before !== undefined) return before;
  // From edge to opposite edge: what the binding alone leaves, and no pattern can leave more.
  const open = Math.min(piecework.width, piecework.height);
  const geometry = PATTERNS[pattern](frameOf(piecework), spec.directions, open);
  const length = geometry.lines.reduce((sum, line) => sum + line.length, 0);
  const whole = { ...geometry, length, gap: Math.min(open, geometry.gap) };
  known.set(key, whole);
  return whole;
};

/**
 * Widest unfastened distance in inches, as the trade speaks of spacing (from one fastening to the next along a
 * row, not the diagonal): ties or lines at every seam leave the longer side of a unit (strip included), every
 * second one twice that, lines one way only the side across the lines, lines mid-unit too half of it. Crossings
 * and centres leave half a unit's diagonal: there the diagonal is the row. Edges count as fastened (binding). No
 * joining, or a pattern that has no place on this piecework, leaves the shorter side of the whole.
 */
export const gapOf = (
  piecework: Piecework,
  joining: Joining,
  pattern: Pattern,
  directions: Directions,
): number => joiningGeometry(piecework, { joining, pattern, directions }).gap;

/** How much is sewn: inches of line, or the number of ties or tacks. Compare only within one kind of joining. */
export const stitchingOf = (
  piecework: Piecework,
  joining: Joining,
  pattern: Pattern,
  directions: Directions,
): number => {
  const { points, length } = joiningGeometry(piecework, { joining, pattern, directions });
  return points.length > 0 ? points.length : length;
};
