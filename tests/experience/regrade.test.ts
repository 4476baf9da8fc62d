import { describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import type { UnitState } from '../../src/casebook/scales.ts';
import { regradeSample } from '../../src/experience/regrade.ts';
import { court, demoCase } from './court.ts';

const { figures } = court.knowledge;
const quilt = demoCase('kiln-yard-squares');

const withUnits = (units: readonly (readonly UnitState[])[]): QuiltCase => {
  const { family_map: _map, ...survey } = quilt.survey;
  return { ...quilt, survey: { ...survey, units } };
};
const grid = (rows: number, columns: number, state: (r: number, c: number) => UnitState) =>
  withUnits(Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (__, c) => state(r, c))));

describe('units to grade again', () => {
  it('are a tenth, at least ten, and never more than there are', () => {
    const count = (rows: number, columns: number) =>
      regradeSample(
        grid(rows, columns, () => 'sound'),
        figures,
      )?.length;
    expect(count(12, 16)).toBe(20); // 192 units: a tenth is 19.2
    expect(count(8, 8)).toBe(10);
    expect(count(2, 3)).toBe(6);
  });

  it('come from every recorded state, so that a sample of sound units alone cannot pass', () => {
    const mixed = grid(20, 20, (r, c) => (r === 0 && c < 3 ? 'hole' : r === 1 && c < 2 ? 'lost' : 'sound'));
    const sample = regradeSample(mixed, figures) ?? [];
    expect(sample).toHaveLength(40);
    const states = sample.map(({ row, column }) => mixed.survey.units?.[row]?.[column]);
    expect(new Set(states)).toEqual(new Set(['hole', 'lost', 'sound']));
  });

  it('are the same each time for one case and round, and others in the next round', () => {
    const names = (round: number) => regradeSample(quilt, figures, round)?.map(({ at }) => at);
    expect(names(1)).toEqual(names(1));
    expect(names(2)).not.toEqual(names(1));
  });

  it('are none of those nobody has seen, and none where there is no map', () => {
    const half = grid(10, 10, (_, c) => (c < 5 ? 'unseen' : 'sound'));
    expect(regradeSample(half, figures)?.every(({ column }) => column >= 5)).toBe(true);
    const { units: _units, ...survey } = quilt.survey;
    expect(regradeSample({ ...quilt, survey }, figures)).toBeUndefined();
  });
});
