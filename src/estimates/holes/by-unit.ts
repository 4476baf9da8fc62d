import type { Piecework } from '../../piecework/model.ts';
import type { Punctures, Sewing } from './sewing.ts';
import { hasOld, type Tops } from './tops.ts';

/** New holes in old cloth of the top, whole numbers that add up to `total`: largest remainders first, then reading order. */
export const shareOut = (
  sewings: readonly Sewing[],
  piecework: Piecework,
  tops: Tops,
  total: number,
): Readonly<Record<string, number>> => {
  const exact = new Map(piecework.units.map(({ at }) => [at, 0]));
  const old = piecework.units.filter(({ at }) => hasOld(tops.at(at)));
  // With every unit new what is left of old cloth is strips and borders: shown with the units beside them.
  const even = new Map((old.length > 0 ? old : piecework.units).map(({ at, area }) => [at, area]));
  for (const { punctures } of sewings) for (const puncture of punctures) pour(puncture, even, exact);
  const whole = [...exact].map(([at, holes]) => ({
    at,
    holes: Math.floor(holes),
    left: holes - Math.floor(holes),
  }));
  const short = total - whole.reduce((sum, { holes }) => sum + holes, 0);
  const next = new Set(
    whole
      .toSorted((one, other) => other.left - one.left)
      .slice(0, Math.max(0, short))
      .map(({ at }) => at),
  );
  return Object.fromEntries(whole.map(({ at, holes }) => [at, next.has(at) ? holes + 1 : holes]));
};

const pour = (
  { layer, holes, reused, over }: Punctures,
  even: ReadonlyMap<string, number>,
  exact: Map<string, number>,
): void => {
  const fresh = holes - reused;
  if (fresh <= 0 || (layer !== 'face' && layer !== 'allowance')) return;
  const found = over?.();
  const where = found !== undefined && found.size > 0 ? found : even;
  let weight = 0;
  for (const each of where.values()) weight += each;
  if (weight <= 0) return;
  for (const [at, each] of where) exact.set(at, (exact.get(at) ?? 0) + (fresh * each) / weight);
};
