import { describe, expect, it } from 'vitest';
import type { FindingDef } from '../../src/findings/vocabulary.ts';
import type { MeasureSystem } from '../../src/quantities/measure.ts';
import type { Rule } from '../../src/rulebook/model.ts';
import { shipped } from '../decision/shipped.ts';
import { slipsInSentence, slipsInWords } from './slips.ts';
import { unwantedIn } from './words.ts';

const { vocabulary, rulebook } = shipped;

/** Names of figures to come stand as one capital word, so that the sentence round them can be read. */
const filled = (text: string): string => text.replace(/\{[^{}]*\}/g, 'Such');

/** A measure in a shipped text is given in both systems, because any studio reads it. */
const inBoth = (slips: (units: MeasureSystem) => readonly string[]): string[] => [
  ...new Set([...slips('inches'), ...slips('metric')]),
];

const inSentence = (text: string): string[] => [
  ...inBoth((units) => slipsInSentence(filled(text), units)),
  ...unwantedIn(text),
];
const inWords = (text: string): string[] => [
  ...inBoth((units) => slipsInWords(text, units)),
  ...unwantedIn(text),
];
const given = (texts: readonly (string | undefined)[]): string[] =>
  texts.filter((text) => text !== undefined && text !== '') as string[];

const told = ({ id, title, because, effects }: Rule): string[] => {
  const sentences = given([because, effects.caution, effects.condition, effects.offer, effects.ask]);
  return [...sentences.flatMap(inSentence), ...inWords(title)].map((slip) => `${id}: ${slip}`);
};

const asked = ({ id, label, question, how, options }: FindingDef): string[] => {
  const words = [label, ...options.flatMap((option) => [option.label, ...Object.values(option.anchors)])];
  return [...given([question, how]).flatMap(inSentence), ...words.flatMap(inWords)].map(
    (slip) => `${id}: ${slip}`,
  );
};

describe('the words of the shipped rules', () => {
  it('are plain in every sentence of every rule, met by a shipped case or not', () => {
    expect(rulebook.rules.length).toBeGreaterThan(80);
    expect(rulebook.rules.flatMap(told)).toEqual([]);
  });

  it('are plain in every question, label and sign', () => {
    const all = [vocabulary.findings, vocabulary.family, vocabulary.unit].flatMap((defs) => [
      ...defs.values(),
    ]);
    expect(all.length).toBeGreaterThan(80);
    expect(all.flatMap(asked)).toEqual([]);
  });
});
