import { describe, expect, it } from 'vitest';
import { frame } from '../../src/documents/kinds/frame.ts';
import type { Section, Table } from '../../src/documents/model.ts';
import { foundMap } from '../../src/documents/sections/quilt-pictures.ts';
import { FOUND } from '../../src/documents/tally.ts';
import { ProblemError } from '../../src/problems/problem.ts';
import { writingOn } from './papers.ts';

const refused = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof ProblemError) return `${error.problems[0]?.code}: ${error.problems[0]?.what}`;
    throw error;
  }
  return 'printed';
};

// The planted faults: a drawing and a list that show other counts than the case holds.
describe('a paper whose drawings and lists differ from the case', () => {
  it('is not printed where a lost block is drawn as sound', async () => {
    const doc = await writingOn('term-time-squares');
    const map = foundMap(doc, 'found');
    if (map?.tally === undefined) throw new Error('the quilt was mapped');
    const { lost = 0, sound = 0 } = map.tally.counts;
    expect(lost).toBeGreaterThan(0);
    const drawn = (counts: Record<string, number>): Section[] => [
      { title: 'Map', blocks: [{ kind: 'picture', picture: { ...map, tally: { of: FOUND, counts } } }] },
    ];
    expect(refused(() => frame(doc, 'x', drawn({ ...map.tally?.counts })))).toBe('printed');
    const vanished = { ...map.tally.counts, lost: lost - 1, sound: sound + 1 };
    expect(refused(() => frame(doc, 'x', drawn(vanished)))).toBe(
      `paper-contradicts-itself: This paper would show other counts than the case holds (sound: ${sound + 1} shown, ${sound} on record; lost: ${lost - 1} shown, ${lost} on record)`,
    );
  });

  it('is not printed where a list leaves out a block that is worked on', async () => {
    const doc = await writingOn('term-time-squares');
    const plan = doc.agreed?.plan;
    const total = plan?.quilt.total ?? 0;
    const listed = (replace: number): Section[] => {
      const tally = { of: plan?.id ?? '', counts: { replace, keep: total - replace } };
      const table: Table = { kind: 'table', caption: 'Rows', columns: ['Row'], rows: [], tally };
      return [{ title: 'Rows', blocks: [table] }];
    };
    expect(refused(() => frame(doc, 'x', listed(14)))).toBe('printed');
    expect(refused(() => frame(doc, 'x', listed(13)))).toContain('replace: 13 shown, 14 on record');
  });
});
