import { formatArea, formatLength } from '../quantities/length.ts';
import { decimal, formatShare, formatWeight, type MeasureSystem } from '../quantities/measure.ts';
import { formatMoney, whole } from '../quantities/rounding.ts';
import { type Fact, isSpan } from './fact.ts';
import type { FindingDef, Kind, Option } from './vocabulary.ts';

/** How a studio shows measures and money. */
export interface FormatStyle {
  readonly units: MeasureSystem;
  /** Sign or name: `$`, `EUR`. */
  readonly currency: string;
}

/** What the words need to know of a finding; rules' subjects have it too. */
export type Sayable = Pick<FindingDef, 'kind' | 'ordered' | 'unit' | 'range'> & {
  readonly options: readonly Pick<Option, 'value' | 'label'>[];
};

const named = (def: Sayable, value: number): string => def.options[value]?.label ?? String(value);

const SAYINGS: Readonly<Record<Kind, (def: Sayable, value: number, style: FormatStyle) => string>> = {
  grade: named,
  choice: named,
  'yes/no': (_def, value) => String(value),
  fraction: (_def, value) => formatShare(value),
  count: (_def, value) => whole(value),
  number: (def, value) => {
    // A calendar year takes no word and no decimals.
    if (def.unit === undefined || def.unit === 'year') return decimal(value, 1);
    return `${decimal(value, 1)} ${def.unit}`;
  },
  length: (_def, value, { units }) => formatLength(value, units),
  area: (_def, value, { units }) => formatArea(value, units),
  weight: (_def, value, { units }) => formatWeight(value, units),
  money: (_def, value, { currency }) => formatMoney(value, currency),
  years: (_def, value) => `${decimal(value, 1)} ${value === 1 ? 'year' : 'years'}`,
};

/** A fact in words: `17 %`, `weak`, `weak or fragile`, `between weak and failing`, `4 1/2 in`, `yes`, `not known`. */
export const sayValue = (def: Sayable, fact: Fact, style: FormatStyle): string => {
  if (fact === undefined) return 'not known';
  if (typeof fact === 'boolean') return fact ? 'yes' : 'no';
  if (typeof fact === 'string') return def.options.find(({ value }) => value === fact)?.label ?? fact;
  const say = (value: number): string => SAYINGS[def.kind](def, value, style);
  if (!isSpan(fact)) return say(fact);
  if (!def.ordered && def.range !== undefined) {
    if (fact.hi >= def.range.max) return `at least ${say(fact.lo)}`;
    if (fact.lo <= def.range.min) return `at most ${say(fact.hi)}`;
  }
  const [lo, hi] = [say(fact.lo), say(fact.hi)];
  if (lo === hi) return `about ${lo}`;
  // One of two neighbours on a scale of names; nothing lies between them.
  return def.ordered && fact.hi - fact.lo === 1 ? `${lo} or ${hi}` : `between ${lo} and ${hi}`;
};
