import { expect, it } from 'vitest';
import { sample } from '../../tiers.ts';
import { CASE_FILES } from '../shipped.ts';
import { overShipped } from './shipped-variants.ts';

it('the shipped cases and their variants, each fact moved one step, keep the laws', () => {
  const tallies = overShipped(sample(CASE_FILES, 8));
  for (const { tried } of tallies) expect(tried).toBeGreaterThan(0);
  expect(tallies.flatMap(({ law, found }) => found.map((what) => `${law}: ${what}`))).toEqual([]);
});
