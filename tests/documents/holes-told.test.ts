import { describe, expect, it } from 'vitest';
import { holesTold } from '../../src/documents/phrases.ts';
import { CASE_FILES, decidedOn } from '../decision/shipped.ts';

const none = {
  ...{ new_old_face: 0, new_old_allowance: 0, new_old_backing: 0, reused: 0, new_cloth: 0, inherited: 0 },
  ...{ perforation: 0, most: null, plain_quilt: 50_000 },
};

describe('new holes, told so that a client can picture them', () => {
  it('are none where nothing is sewn into old cloth', () => {
    expect(holesTold(none)).toEqual(['None.']);
  });

  it('are given to two figures for the top and for the backing, never as one sum', () => {
    const told = holesTold({ ...none, new_old_face: 1234, new_old_allowance: 111, new_old_backing: 2345 });
    expect(told.slice(0, 2)).toEqual(['About 1,300 in the top.', 'About 2,300 in the old backing.']);
    expect(told.join(' ')).not.toMatch(/3,6|3,7/);
  });

  it('say once, in words, how many are hidden, and never "4,147: 4,147 in seam allowances"', () => {
    const [first] = holesTold({ ...none, new_old_allowance: 4147 });
    expect(first).toBe('About 4,100 in the top, all hidden in seams.');
  });

  it('stand beside a scale that means something, and name where most fall and what is used again', () => {
    const told = holesTold({
      ...none,
      new_old_face: 2000,
      reused: 940,
      most: { where: 'row C', count: 700 },
    });
    expect(told).toContain('More of those in the top fall in row C than anywhere else: about 700.');
    expect(told).toContain('About 940 old holes are used again.');
    expect(told.at(-1)).toBe(
      'A plain hand-quilted quilt of this size has about 50,000 in its top; this adds 4 for every hundred.',
    );
    expect(holesTold({ ...none, new_old_face: 100 }).at(-1)).toMatch(/less than one for every hundred\.$/);
  });

  it.each(CASE_FILES)('name for %s a place that has no more than the top has', async (file) => {
    const { answer } = await decidedOn(file);
    for (const { estimates } of answer.options) {
      const { most, new_old_face: face, new_old_allowance: seams } = estimates.holes;
      if (most !== null) expect(most.count).toBeLessThanOrEqual(face + seams);
    }
  });
});
