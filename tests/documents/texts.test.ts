import { describe, expect, it } from 'vitest';
import { pressingWords, readTexts } from '../../src/documents/read-texts.ts';
import { TEXTS_FILE } from './papers.ts';

const read = (from: string, to: string) => {
  if (!TEXTS_FILE.includes(from)) throw new Error(`texts.yaml has no "${from}"`);
  return readTexts(
    'rules/texts.yaml',
    TEXTS_FILE.replace(from, () => to),
  );
};

describe('the words a practitioner may change', () => {
  it('are read as shipped, without an error and without a word that presses', () => {
    expect(readTexts('rules/texts.yaml', TEXTS_FILE).problems).toEqual([]);
  });

  it('refuse a placeholder that nothing fills, at its place, with the near one', () => {
    const { texts, problems } = read('Dear client {client},', 'Dear {cleint},');
    expect(texts).toBeUndefined();
    expect(problems).toHaveLength(1);
    const [problem] = problems;
    expect(problem).toMatchObject({ code: 'bad-placeholder', severity: 'error', didYouMean: '{client}' });
    const line = TEXTS_FILE.split('\n').findIndex((each) => each.includes('Dear client {client}')) + 1;
    expect(problem?.place).toMatchObject({ file: 'rules/texts.yaml', line, length: '{cleint}'.length });
    expect(problem?.place?.text.slice((problem.place.column ?? 0) - 1)).toMatch(/^\{cleint\}/);
  });

  it('refuse a placeholder of another text, and a brace without its partner', () => {
    expect(read('{deposit} reserves', '{units} reserves').problems[0]?.what).toContain('estimate.deposit');
    expect(read('{deposit} reserves', '{deposit reserves').problems[0]?.what).toContain('no partner');
  });

  it('refuse an unknown name and a missing one, each at its place', () => {
    const { problems } = read('  closing:', '  closign:');
    expect(problems.map(({ code }) => code).sort()).toEqual(['missing-key', 'unknown-key']);
    expect(problems.find(({ code }) => code === 'unknown-key')?.didYouMean).toBe('closing');
    for (const { place } of problems) expect(place?.line).toBeGreaterThan(1);
  });

  it('have the shipped ones stand in for those a file is older than, and for no others', () => {
    const { texts: shipped } = readTexts('rules/texts.yaml', TEXTS_FILE);
    const older = TEXTS_FILE.replace(/^work:[\s\S]*?^report:/m, 'report:').replace(
      /^ {2}greeting: .*/m,
      '  greeting: Hello {client},',
    );
    expect(older).not.toContain('Work order');
    const alone = readTexts('rules/texts.yaml', older);
    expect(alone.texts).toBeUndefined();
    expect(alone.problems.map(({ code }) => code)).toEqual(['missing-key']);
    const { texts, problems, missing } = readTexts('rules/texts.yaml', older, shipped);
    expect(problems).toEqual([]);
    expect(missing).toContain('work.title');
    expect(missing.every((key) => key.startsWith('work.'))).toBe(true);
    expect(texts?.list('work.title', { quilt: 'Q' })).toEqual(['Work order: Q']);
    expect(texts?.list('letter.greeting', { client: 'C-014' })).toEqual(['Hello C-014,']);
    // What stood there once does no harm.
    const once = older.replace('  figures:', '  priced: "As advised."\n  figures:');
    expect(readTexts('rules/texts.yaml', once, shipped).problems).toEqual([]);
    // What nobody knows is a slip, whatever stands in.
    const slip = readTexts('rules/texts.yaml', older.replace('  closing:', '  closign:'), shipped);
    expect(slip.problems.map(({ code }) => code)).toEqual(['unknown-key']);
  });

  it('refuse an empty text and a text that is not words', () => {
    expect(read('closing: With kind regards,', 'closing: ""').texts).toBeUndefined();
    expect(read('closing: With kind regards,', 'closing: { a: b }').texts).toBeUndefined();
  });

  it('warn of a promise but still serve', () => {
    const { texts, problems } = read('With kind regards,', 'A guaranteed success,');
    expect(texts).toBeDefined();
    expect(problems).toMatchObject([{ code: 'suspicious', severity: 'warning' }]);
  });

  it('never read a filling for names again', () => {
    const { texts } = readTexts('rules/texts.yaml', TEXTS_FILE);
    expect(texts?.list('letter.greeting', { client: '{studio}', studio: 'X' })).toEqual([
      'Dear client {studio},',
    ]);
  });
});

describe('words that press', () => {
  it('are whole words, whatever their case', () => {
    expect(
      pressingWords('Only this is Safe; simply justice, unsafe and commonly').map(({ word }) => word),
    ).toEqual(['Only', 'Safe', 'simply']);
  });
});
