import { describe, expect, it } from 'vitest';
import type { Fact } from '../../src/findings/fact.ts';
import { sayValue } from '../../src/findings/say.ts';
import { vocabulary } from './vocabulary-fixture.ts';

const say = (id: string, fact: Fact, units: 'inches' | 'metric' = 'inches'): string => {
  const def = vocabulary.findings.get(id);
  if (def === undefined) throw new Error(id);
  return sayValue(def, fact, { units, currency: '$' });
};

describe('a fact in words', () => {
  it.each<[string, Fact, string]>([
    ['loss', 0.17, '17 %'],
    ['governing_fragility', 2, 'weak'],
    ['governing_fragility', { lo: 2, hi: 4 }, 'between weak and failing'],
    ['joining_gap', 4.5, '4 1/2 in'],
    ['damp', true, 'yes'],
    ['damp', undefined, 'not known'],
    ['intended_use', 'guest_bed', 'on a guest bed'],
    ['pest_traces', 1, 'empty skins or webbing'],
    ['budget', 1100, '$1,100'],
    ['made_about', 1950, '1950'],
    ['wanted_years', 1, '1 year'],
    ['loss', { lo: 0.05, hi: 0.12 }, 'between 5 % and 12 %'],
    ['loss', { lo: 0.05, hi: 1 }, 'at least 5 %'],
    ['loss', { lo: 0, hi: 0.3 }, 'at most 30 %'],
    ['stitches_per_inch', 8, '8 stitches per inch'],
  ])('%s %j is "%s"', (id, fact, words) => {
    expect(say(id, fact)).toBe(words);
  });

  it('shows one system of measures', () => {
    expect(say('joining_gap', 4, 'metric')).toBe('10.2 cm');
    expect(say('weight', 2.2046226, 'metric')).toBe('1 kg');
  });
});
