import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/problems/problem.ts';
import { changed, readOrchard } from './reading.ts';

/** The fixture with its follow-ups and, unless taken out, the day the work was done. */
const followed = (followups: string, completed = 'completed: { on: 2026-05-14, holes: 400 }\n'): string =>
  changed('followups: []', `${completed}followups:\n${followups}`);

const problems = (text: string): Problem[] => readOrchard(text).problems;
const errors = (text: string): Problem[] => problems(text).filter(({ severity }) => severity === 'error');
const said = (text: string): string[] => errors(text).map(({ what }) => what);

describe('follow-ups in a case file', () => {
  it('keep use, washings, openings by place, photographs and whether they would choose it again', () => {
    const read = readOrchard(
      followed(
        '  - { on: 2026-11-20, by: helper-a, seen: told, use: guest_bed, washings: 1, washing: hand, openings: { old_cloth: 1, junctions: 2 }, repair_due: no, photos: [photos/after.jpg], choose_again: yes }\n',
      ),
    ).case;
    expect(read?.completed).toEqual({ on: '2026-05-14', holes: 400 });
    expect(read?.followups).toEqual([
      {
        on: '2026-11-20',
        by: 'helper-a',
        seen: 'told',
        use: 'guest_bed',
        washings: 1,
        washing: 'hand',
        openings: { old_cloth: 1, junctions: 2 },
        repair_due: false,
        photos: ['photos/after.jpg'],
        choose_again: true,
      },
    ]);
  });

  it('are refused before the work was done, on the line of the date', () => {
    const text = followed('  - { on: 2026-05-01 }\n');
    const [problem] = errors(text);
    expect(problem?.what).toBe('this follow-up (2026-05-01) comes before the work was done (2026-05-14)');
    expect(problem?.place?.text).toContain('2026-05-01');
    expect(problem?.place?.line).toBe(text.split('\n').findIndex((line) => line.includes('2026-05-01')) + 1);
  });

  it('are refused where nothing says when the work was done', () => {
    const [problem] = errors(followed('  - { on: 2026-11-20 }\n', ''));
    expect(problem?.code).toBe('missing-key');
    expect(problem?.cure).toContain('completed:');
  });

  it('count no more than the quilt has: 30 units, 49 joins in 5 rows of 6', () => {
    expect(
      said(followed('  - { on: 2026-11-20, openings: { old_cloth: 31, old_joins: 50, new_work: 99 } }\n')),
    ).toEqual([
      '31 new openings in old cloth, but this quilt has 30 units in all',
      '50 old joins newly open, but this quilt has 49 joins in all',
    ]);
    expect(said(followed('  - { on: 2026-11-20, openings: { old_cloth: 30, old_joins: 49 } }\n'))).toEqual(
      [],
    );
  });

  it('stand in the order of their days, one a day', () => {
    expect(said(followed('  - { on: 2026-11-20 }\n  - { on: 2026-11-20 }\n'))).toEqual([
      'this follow-up (2026-11-20) does not come after the one before it (2026-11-20)',
    ]);
  });

  it('have no names but their own, with a near miss', () => {
    const [problem] = errors(followed('  - { on: 2026-11-20, washigs: 2 }\n'));
    expect(problem).toMatchObject({ code: 'unknown-key', didYouMean: 'washings' });
  });

  it('never count below nothing or in halves', () => {
    expect(errors(followed('  - { on: 2026-11-20, openings: { old_cloth: -1 } }\n'))).toHaveLength(1);
    expect(errors(followed('  - { on: 2026-11-20, openings: { old_cloth: 1.5 } }\n'))).toHaveLength(1);
  });
});

describe('the log of hours', () => {
  it('needs the operation and hours that can be', () => {
    const logged = (entry: string): string[] =>
      said(changed('{ on: 2026-04-12, hours: 2.5, operation: taking out the old joining }', entry));
    expect(logged('{ on: 2026-04-12, hours: 2.5 }')).toEqual(['operation is missing from log']);
    expect(logged('{ hours: -1, operation: overlays }')).toHaveLength(1);
    expect(logged('{ hours: soon, operation: overlays }')).toHaveLength(1);
  });

  it('warns of a day longer than a day and of work before the case came in', () => {
    const text = changed(
      '{ on: 2026-04-12, hours: 2.5, operation: taking out the old joining }',
      '{ on: 2026-04-01, hours: 25, operation: overlays }',
    );
    expect(problems(text).map(({ severity }) => severity)).toEqual(['warning', 'warning']);
  });
});
