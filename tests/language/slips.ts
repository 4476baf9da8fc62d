import type { MeasureSystem } from '../../src/quantities/measure.ts';

interface Slip {
  readonly name: string;
  readonly find: RegExp;
}

/** Things counted in answers; a count of one takes the singular, any other the plural. */
const COUNTED = [
  'unit',
  'block',
  'patch',
  'seam',
  'join',
  'hole',
  'tie',
  'knot',
  'tack',
  'line',
  'square',
  'fabric',
  'year',
  'month',
  'week',
  'day',
  'hour',
  'time',
  'reading',
  'question',
  'layer',
  'rule',
  'yard',
  'metre',
  'ball',
  'piece',
  'strip',
  'spool',
  'pin',
  'stitch',
];
const SINGULARS = COUNTED.join('|');
const PLURALS = COUNTED.map((name) => (/ch$/.test(name) ? `${name}es` : `${name}s`)).join('|');

/** What betrays the machine behind a sentence: codes, names of the inside, and what was not filled in. */
const INSIDE: readonly Slip[] = [
  { name: 'a name with underscores', find: /\b[a-z][a-z0-9]*_[a-z0-9_]+\b/g },
  { name: 'a path of names', find: /\b(finding|planned|plan|unit|family|joins|life_years|price)\.[a-z]\w*/g },
  { name: 'a code of the trade book', find: /(?<![\w-])[FHJUV]\d(?![\w-])/g },
  { name: 'a value of the machine', find: /\b(undefined|NaN|null|Infinity)\b|\[object/g },
  { name: 'a place left unfilled', find: /[{}]/g },
  { name: 'an unknown inside a measure', find: /\bnot known (of|between|apart|weeks)\b/g },
];

const GRAMMAR: readonly Slip[] = [
  { name: 'one of many', find: new RegExp(`(?<![\\d.,/]|to )\\b1 (?:old |new )?(${PLURALS})\\b`, 'g') },
  {
    name: 'many of one',
    find: new RegExp(
      `(?<![\\d/] ?)\\b(0|[2-9]|\\d[\\d,]*\\d) (?:old |new )?(${SINGULARS})\\b(?!-| inch| metre)`,
      'g',
    ),
  },
  { name: 'doubled spaces', find: /\S {2,}/g },
  { name: 'doubled or stray marks', find: /\.\.|,,|;;|[ (][,.;:?](?= |$)|[.,;:?][,;:.]|\( | \)|\(\)/g },
  { name: 'a doubled word', find: /\b(\p{L}+) \1\b/giu },
  { name: 'no capital', find: /\p{L}{3}[.?!] \p{Ll}/gu },
  { name: 'a for an', find: /(?<!fabric )\b[aA] (?!un[iu]|us|eu|one|onc)[aeiou]\p{L}+/gu },
];

/** Digits with a unit, and units spelt out, of one system. Hand stitches and needles keep the units of their trade. */
const MEASURES: Readonly<Record<MeasureSystem, RegExp>> = {
  inches:
    /\d ?(?:in(?! (?:its|seam|the) )|in²|ft|yd|lb|oz)\b|\b(?:inch(?:es)?|yards?|feet|foot|pounds?|ounces?)\b/g,
  metric: /\d ?(?:mm|cm|m|m²|cm²|kg|g)(?![\p{L}²])|\b(?:milli|centi)?metres?\b|\bkilograms?\b/gu,
};

/** A measure of the other system is a slip, unless the studio's own stands within the same sentence. */
function foreignMeasures(sentence: string, units: MeasureSystem): string[] {
  const other = units === 'inches' ? 'metric' : 'inches';
  const found = sentence.match(MEASURES[other]);
  if (found === null || sentence.match(MEASURES[units]) !== null) return [];
  return [`${found[0]} in a studio that measures in ${units}`];
}

const found = (text: string, slips: readonly Slip[]): string[] =>
  slips.flatMap(({ name, find }) => [...text.matchAll(find)].map(([word]) => `${name}: "${word.trim()}"`));

const sentencesOf = (text: string): string[] => text.split(/(?<=[.?!]["”)]?) +(?=["“(\p{Lu}\d])/u);

/** Slips in any piece of text, sentence or not: what a row, a label or a line of a page must not have either. */
export const slipsInWords = (text: string, units: MeasureSystem): string[] => [
  ...found(text, INSIDE),
  ...found(text, GRAMMAR),
  ...sentencesOf(text).flatMap((sentence) => foreignMeasures(sentence, units)),
];

/** Slips in a whole sentence or several: it begins with a capital or a figure and has an end. */
export const slipsInSentence = (text: string, units: MeasureSystem): string[] => [
  ...slipsInWords(text, units),
  ...sentencesOf(text).flatMap((sentence) => [
    ...(/^["“(]?[\p{Lu}\d$▲]/u.test(sentence) ? [] : [`no capital: "${sentence.slice(0, 30)}"`]),
    ...(/[.?!]["”)]?$/.test(sentence) ? [] : [`no end: "${sentence.slice(-30)}"`]),
  ]),
];
