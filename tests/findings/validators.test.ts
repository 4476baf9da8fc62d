import { describe, expect, it } from 'vitest';
import { findingReader } from '../../src/findings/read-answer.ts';
import { vocabulary } from './vocabulary-fixture.ts';

const read = findingReader(vocabulary);

describe('reading a line under findings', () => {
  it.each([true, 'yes', 'Yes', 'on', 'true'])('reads %s as yes', (raw) => {
    expect(read('damp', raw)).toEqual({ value: true });
  });

  it.each([false, 'no', 'NO', 'off'])('reads %s as no', (raw) => {
    expect(read('damp', raw)).toEqual({ value: false });
  });

  it('reads "unknown", a question mark and nothing as unknown, never as no', () => {
    for (const raw of ['unknown', 'Unknown', '?', '', null])
      expect(read('damp', raw)).toEqual({ unknown: true });
  });

  it('reads measures with their unit into base units', () => {
    expect(read('mould_area', '0.5 ft2')).toEqual({ value: 72 });
    expect(read('mould_area', 0)).toEqual({ value: 0 });
    expect(read('strip_allowance', '1/8 in')).toEqual({ value: 0.125 });
    expect(read('shattering_silk', '7 %')).toEqual({ value: 0.07 });
    expect(read('monetary_value', '$1,200')).toEqual({ value: 1200 });
    expect(read('monetary_value', '950 EUR')).toEqual({ value: 950 });
    expect(read('deadline_weeks', '6 weeks')).toEqual({ value: 6 });
  });

  it('reads choices by name however they are spelt, and keeps the name', () => {
    expect(read('inscription', 'Names and date')).toEqual({ value: 'names_and_date' });
  });

  it('says what is wrong with a choice, and what was meant', () => {
    expect(read('odour', 'on_unfoldin')).toMatchObject({
      problem: { code: 'not-an-option', didYouMean: 'on_unfolding' },
    });
  });

  it('asks for the unit a bare number lacks', () => {
    expect(read('mould_area', 12)).toMatchObject({ problem: { code: 'bad-quantity', didYouMean: '12 in2' } });
    expect(read('shattering_silk', 7)).toMatchObject({
      problem: { code: 'bad-quantity', didYouMean: '7 %' },
    });
  });

  it('refuses what lies outside the range, naming the range', () => {
    const reading = read('strip_allowance', '9 in');
    expect(reading).toMatchObject({ problem: { code: 'out-of-range' } });
    expect('problem' in reading && reading.problem.what).toContain('between 0 in and 2 in');
    expect(read('shattering_silk', '140 %')).toMatchObject({ problem: { code: 'out-of-range' } });
    expect(read('deadline_weeks', -1)).toMatchObject({ problem: { code: 'out-of-range' } });
  });

  it('refuses figures that are no figures', () => {
    for (const raw of ['a lot', '1,2', 'ten', true, Number.NaN]) {
      expect(read('monetary_value', raw), String(raw)).toMatchObject({ problem: { code: 'wrong-kind' } });
    }
    expect(read('damp', 'perhaps')).toMatchObject({ problem: { code: 'wrong-kind' } });
  });

  it('knows a misspelt finding', () => {
    expect(read('live_pest', 'no')).toMatchObject({
      problem: { code: 'unknown-finding', didYouMean: 'live_pests' },
    });
  });

  it('sends derived findings away and others to their place', () => {
    expect(read('loss', '12 %')).toMatchObject({
      problem: { code: 'unknown-key', cure: 'Remove the line.' },
    });
    const reading = read('intended_use', 'display');
    expect('problem' in reading && reading.problem.cure).toContain('client.intended_use');
  });
});
