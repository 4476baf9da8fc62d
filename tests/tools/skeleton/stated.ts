import type { Fact } from '../../../src/findings/fact.ts';
import { type FindingDef, type Kind, pathOf } from '../../../src/findings/vocabulary.ts';
import { type Draft, percent, put } from './draft.ts';

const rounded = (value: number): number => Math.round(value * 1e4) / 1e4;
const bare = (value: number): number => rounded(value);

/** How a number of each kind is written in a case file. */
const WRITTEN: Readonly<Record<Kind, (value: number, def: FindingDef) => string | number>> = {
  grade: (value, def) => def.options[value]?.value ?? value,
  choice: (value, def) => def.options[value]?.value ?? value,
  'yes/no': bare,
  fraction: percent,
  count: bare,
  number: bare,
  years: bare,
  money: bare,
  length: (value) => `${rounded(value)} in`,
  area: (value) => `${rounded(value)} in2`,
  weight: (value) => `${rounded(value)} lb`,
};

/** Writes a finding that a case states; what is not known is left out. False where the finding is derived. */
export function putStated(draft: Draft, def: FindingDef, fact: Fact): boolean {
  const path = pathOf(def);
  if (path === undefined) return false;
  if (fact === undefined) return true;
  if (typeof fact === 'boolean') put(draft, path, fact ? 'yes' : 'no');
  else if (typeof fact === 'string') put(draft, path, fact);
  else if (typeof fact === 'number') put(draft, path, WRITTEN[def.kind](fact, def));
  return true;
}
