import { layGrid } from './grid.ts';
import type { Frame, JoiningLine, JoiningPoint, Place, Stretch } from './joining-model.ts';
import type { Piecework, Unit } from './model.ts';
import { alongJoins } from './stretches.ts';

const middleOf = ({ outline: [corner] }: Unit, unit: Piecework['unit']): { x: number; y: number } => ({
  x: (corner?.x ?? 0) + unit.width / 2,
  y: (corner?.y ?? 0) + unit.height / 2,
});

/** Lines and crossings of rectangular settings, sashed ones included: spacing is counted from strip to strip. */
export const gridFrame = (piecework: Piecework): Frame => {
  const { rows, columns, unit, width, height, units } = piecework;
  const strip = {
    x: columns > 1 ? (width - columns * unit.width) / (columns - 1) : 0,
    y: rows > 1 ? (height - rows * unit.height) / (rows - 1) : 0,
  };
  const pitch = { x: unit.width + strip.x, y: unit.height + strip.y };
  // One cloth has no seams for stitches to hide in, but its cells still say over what a line runs.
  const seamless = piecework.joins.length === 0;
  const place: Place = seamless ? 'cloth' : 'seam';
  const joins = seamless ? layGrid({ ...piecework, strip: 0 }).joins : piecework.joins;
  const seams = alongJoins(piecework.lines, joins, place);

  const centres = units.map(
    (each): JoiningPoint => ({ at: middleOf(each, unit), units: [each.at], place: 'cloth' }),
  );
  const middle = (direction: 'across' | 'down', index: number): JoiningLine => {
    const along = direction === 'across';
    const crossed = units.filter((each) => (along ? each.row : each.column) === index);
    const inStrips = along ? strip.x * (columns - 1) : strip.y * (rows - 1);
    const stretches: Stretch[] = crossed.map(({ at }) => ({
      units: [at],
      length: along ? unit.width : unit.height,
    }));
    if (inStrips > 0) stretches.push({ units: [], length: inStrips });
    const at = along ? index * pitch.y + unit.height / 2 : index * pitch.x + unit.width / 2;
    return {
      id: `${direction}-middle-${index + 1}`,
      direction,
      from: along ? { x: 0, y: at } : { x: at, y: 0 },
      to: along ? { x: width, y: at } : { x: at, y: height },
      length: along ? width : height,
      place: 'cloth',
      stretches,
    };
  };

  return {
    across: { pitch: pitch.y, bands: rows },
    down: { pitch: pitch.x, bands: columns },
    toCentre: Math.hypot(pitch.x, pitch.y) / 2,
    crossings: piecework.crossings.map(({ at, units: four }, index) => ({
      point: { at, units: four, place },
      across: Math.floor(index / (columns - 1)) + 1,
      down: (index % (columns - 1)) + 1,
    })),
    centres,
    seams: {
      across: seams.filter((line) => line.direction === 'across'),
      down: seams.filter((line) => line.direction === 'down'),
    },
    middles: {
      across: Array.from({ length: rows }, (_, row) => middle('across', row)),
      down: Array.from({ length: columns }, (_, column) => middle('down', column)),
    },
  };
};
