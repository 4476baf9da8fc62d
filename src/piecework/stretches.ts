import type { JoiningLine, Place, Stretch } from './joining-model.ts';
import type { Join, SeamLine } from './model.ts';

/** Seam lines with the pairs of units they run between; what no join covers lies in the strips of a sashed layout. */
export const alongJoins = (
  lines: readonly SeamLine[],
  joins: readonly Join[],
  place: Place,
): readonly JoiningLine[] => {
  const byLine = new Map<string, Stretch[]>(lines.map((line) => [line.id, []]));
  for (const { a, b, length, line } of joins) byLine.get(line)?.push({ units: [a, b], length });
  return lines.map((line) => {
    const pairs = byLine.get(line.id) ?? [];
    const left = line.length - pairs.reduce((sum, pair) => sum + pair.length, 0);
    const stretches = left > 1e-9 * line.length ? [...pairs, { units: [], length: left }] : pairs;
    return { ...line, place, stretches };
  });
};
