import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import type { CaseAtHand } from '../../src/cli/case-at-hand.ts';
import { openCase } from '../../src/cli/open-case.ts';
import { openStudio, type Studio } from '../../src/cli/studio.ts';

/** Readings are kept by a built program only, so the test is one. */
vi.mock('../../src/cli/kept-files.ts', async (original) => ({
  ...(await original<typeof import('../../src/cli/kept-files.ts')>()),
  BUILD: 'a build of the test',
}));

const CASES = readdirSync('cases').filter((name) => name.endsWith('.yaml'));
let studio: Studio;
let cache: string;
let atHand: (path: string) => Promise<CaseAtHand>;

beforeAll(async () => {
  cache = mkdtempSync(join(tmpdir(), 'mendwise-kept-'));
  vi.stubEnv('XDG_CACHE_HOME', cache);
  studio = await openStudio();
  const { caseAtHand } = await import('../../src/cli/case-at-hand.ts');
  atHand = (path) => caseAtHand(path, studio);
});

const keptFiles = (): string[] =>
  readdirSync(join(cache, 'mendwise'))
    .filter((name) => name.startsWith('case-'))
    .map((name) => join(cache, 'mendwise', name));

const ownCase = (text = readFileSync(`cases/${CASES[0]}`, 'utf8')): string => {
  const path = join(mkdtempSync(join(tmpdir(), 'mendwise-case-')), CASES[0] ?? '');
  writeFileSync(path, text);
  return path;
};

describe('a case kept as it was read', () => {
  it.each(CASES)('is the case that was read, to the last key: %s', async (name) => {
    const path = `cases/${name}`;
    const { case: read, warnings } = await openCase(path, studio);
    for (const _ of ['first', 'then']) {
      const given = await atHand(path);
      expect(given.case).toStrictEqual(read);
      expect(given.warnings).toEqual(warnings);
    }
  });

  it('is found again, and not read a second time', async () => {
    const path = ownCase();
    const { case: first } = await atHand(path);
    for (const file of keptFiles()) {
      const kept = JSON.parse(readFileSync(file, 'utf8'));
      if (kept.case.case === first.case) {
        kept.case.quilt.title = 'Kept';
        writeFileSync(file, JSON.stringify(kept));
      }
    }
    expect((await atHand(path)).case.quilt.title).toBe('Kept');
  });

  it('is read anew where a letter of the text differs, though the length is the same', async () => {
    const path = ownCase();
    const text = readFileSync(path, 'utf8');
    await atHand(path);
    const width = /width: (\d)/.exec(text)?.[1] ?? '';
    writeFileSync(path, text.replace(`width: ${width}`, `width: ${width === '9' ? '8' : Number(width) + 1}`));
    const { case: changed } = await atHand(path);
    expect(changed).toStrictEqual((await openCase(path, studio)).case);
    expect(changed.quilt.size.width).not.toBe(
      (await openCase(`cases/${CASES[0]}`, studio)).case.quilt.size.width,
    );
  });

  it.each([
    '',
    '{',
    'null',
    '[]',
    '{"readBy":[],"text":"","case":null}',
    '{"readBy":"x","text":1,"case":{}}',
  ])('is read anew where what was kept is spoilt: %s', async (spoilt) => {
    const path = ownCase();
    const { case: first } = await atHand(path);
    for (const file of keptFiles()) writeFileSync(file, spoilt);
    expect((await atHand(path)).case).toStrictEqual(first);
  });

  it('says each time what is wrong with a case that does not read', async () => {
    const path = ownCase('mendwise: 1\ncase: other\n');
    for (const _ of ['first', 'then']) await expect(atHand(path)).rejects.toThrow();
  });
});
