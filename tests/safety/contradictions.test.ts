import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { written } from '../arbitraries/cases.ts';
import { caseFrom, caseOf } from '../decision/shipped.ts';
import { FULL } from '../tiers.ts';
import { contradictionsIn, NEVER, PAIRS } from './contradictions.ts';
import { textsOf } from './papers.ts';

const RUNS = FULL ? 300 : 30;

const FILES = ['cases', 'cases/demo'].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.yaml') && !/\.helper-|^studio/.test(name))
    .map((name) => `${folder}/${name}`),
);

describe('the table of what excludes each other', () => {
  it.each(PAIRS)('finds $name where both are said, and not where one is', ({ name, planted, innocent }) => {
    expect(contradictionsIn(planted.join(' '))).toContain(name);
    for (const alone of planted) expect(contradictionsIn(alone)).not.toContain(name);
    expect(contradictionsIn(innocent.join(' '))).not.toContain(name);
  });

  it.each(NEVER)('finds $name', ({ name, planted }) => {
    expect(contradictionsIn(planted)).toContain(name);
  });
});

describe('no text contradicts itself', () => {
  it.each(FILES)('%s', async (file) => {
    const texts = await textsOf(caseOf(file, readFileSync(file, 'utf8')));
    const found = Object.entries(texts).flatMap(([paper, text]) =>
      contradictionsIn(text).map((name) => `${paper}: ${name}`),
    );
    expect(found).toEqual([]);
  });

  it('of random cases', async () => {
    await fc.assert(
      fc.asyncProperty(written, async (text) => {
        let quiltCase: ReturnType<typeof caseFrom>;
        try {
          quiltCase = caseFrom(text);
        } catch {
          return;
        }
        for (const [paper, said] of Object.entries(await textsOf(quiltCase)))
          expect(contradictionsIn(said), paper).toEqual([]);
      }),
      { numRuns: RUNS },
    );
  });
});
