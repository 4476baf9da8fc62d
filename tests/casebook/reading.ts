import { readFileSync } from 'node:fs';
import type { FindingReader } from '../../src/casebook/fields.ts';
import { type CaseReading, readCase } from '../../src/casebook/read-case.ts';
import { readArea } from '../../src/quantities/length.ts';

/** Stands in for the vocabulary, which lives in an upper room: three findings, enough to see them read and refused. */
export const threeFindings: FindingReader = (id, raw) => {
  if (raw === 'unknown') return { unknown: true };
  if (id === 'live_pests') return { value: raw === true || raw === 'yes' };
  if (id === 'odour') return { value: String(raw) };
  if (id !== 'mould_area') {
    const what = `the vocabulary has no finding "${id}"`;
    return { problem: { code: 'unknown-finding', what, didYouMean: 'mould_area' } };
  }
  const value = readArea(String(raw));
  if (value !== undefined) return { value };
  return {
    problem: { code: 'bad-quantity', what: `"${raw}" cannot be read as an area`, cure: 'Write 3 in2.' },
  };
};

export const ORCHARD = readFileSync(new URL('fixtures/orchard-fourpatch.yaml', import.meta.url), 'utf8');

export const readOrchard = (text = ORCHARD, file = 'cases/orchard-fourpatch.yaml'): CaseReading =>
  readCase(file, text, threeFindings);

/** The fixture with one piece of it changed; fails where the piece is not there. */
export const changed = (from: string, to: string, text = ORCHARD): string => {
  if (!text.includes(from)) throw new Error(`The fixture has no "${from}"`);
  return text.replace(from, () => to);
};
