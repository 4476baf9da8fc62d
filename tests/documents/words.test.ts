import readability from 'text-readability';
import { describe, expect, it } from 'vitest';
import { FORMATS } from '../../src/cli/commands/sheet.ts';
import { KINDS } from '../../src/documents/kinds/all.ts';
import type { Block, Sheet, Words } from '../../src/documents/model.ts';
import { slipsInWords } from '../language/slips.ts';
import { unwantedIn } from '../language/words.ts';
import { shippedSheet, TEXTS_FILE } from './papers.ts';

const said = (words: Words): string =>
  typeof words === 'string'
    ? words
    : words.map((run) => (typeof run === 'string' ? run : 'strong' in run ? run.strong : '')).join('');

/** Paragraphs and list items: what is read as prose. The list of evidence is for whoever looks a source up. */
const prose = (sheet: Sheet): string[] =>
  sheet.sections
    .filter(({ title }) => title !== 'What our reasons rest on')
    .flatMap(({ blocks }) => blocks)
    .flatMap((block: Block): string[] =>
      block.kind === 'paragraph' ? [said(block.text)] : block.kind === 'list' ? block.items.map(said) : [],
    )
    .filter((text) => text.split(' ').length > 4);

/** Flesch 1948: 60 and more is plain English, read with ease at 13 to 15 years. */
const PLAIN = 60;

describe('the words of the documents', () => {
  it.each(KINDS)('$name reads as plain English', async ({ name }) => {
    const text = prose(await shippedSheet(name)).join(' ');
    expect(readability.fleschReadingEase(text)).toBeGreaterThanOrEqual(PLAIN);
  });

  it.each(KINDS)('$name has no word that presses, promises or hedges', async ({ name }) => {
    expect(unwantedIn(FORMATS.text(await shippedSheet(name)).replace(/\s+/g, ' '))).toEqual([]);
  });

  it.each(KINDS)(
    '$name has nothing of the machine in it, and counts as a person counts',
    async ({ name }) => {
      expect(prose(await shippedSheet(name)).flatMap((text) => slipsInWords(text, 'inches'))).toEqual([]);
    },
  );

  it('carry no codes and no evidence of their own', () => {
    expect(TEXTS_FILE).not.toMatch(/\b[FUHSJBKV]\d\b/);
    expect(TEXTS_FILE).not.toMatch(/^\s+(evidence|source):/m);
  });
});
