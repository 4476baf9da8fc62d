import { describe, expect, it } from 'vitest';
import { GRADES, type Grade } from '../../../src/casebook/scales.ts';
import { holes } from '../../../src/estimates/holes/holes.ts';
import type { Plan } from '../../../src/plans/model.ts';
import { FIGURES, planFor, type Work } from './fixtures.ts';

// What plans are ranked by: a hole in sound cotton is not one in fragile silk. Common practice, no source: 1, 2, 5, 20.
const blocks = { kind: 'edge to edge', rows: 4, columns: 4, finished: { width: 10, height: 10 } } as const;
const family = (letter: string, fragility: number | { readonly lo: number; readonly hi: number }) => ({
  [letter]: {
    letter,
    name: letter,
    fibre: 'cotton' as const,
    fragility,
    dyeBleed: undefined,
    selfDestructing: undefined,
    share: 0.5,
  },
});

/** A is sound; B, of which the units worked on are, is of the grade told. */
const inGrade = (fragility: Parameters<typeof family>[1], work: Work): Plan => {
  const plan = planFor(blocks, { width: 40, height: 40 }, [work]);
  const actions = plan.actions.map((each, index) => ({
    ...each,
    group: { ...each.group, family: index === 0 ? 'B' : 'A' },
  }));
  return {
    ...plan,
    actions,
    quilt: { ...plan.quilt, families: { ...family('A', 0), ...family('B', fragility) } },
  };
};
const grade = (name: Grade): number => GRADES.indexOf(name);

describe('new holes weighed by the cloth they are made in', () => {
  // One stuffed unit opened over 3 in and closed by ladder stitch: 8 rungs an inch in each of two folds, 48 holes.
  const stuffed: Work = { action: 'restuff', where: ['B2'] };

  it.each([
    ['sound', 48],
    ['worn', 96],
    ['weak', 240],
    ['fragile', 960],
    ['failing', 960],
  ] as const)('48 holes in %s cloth count %d', (name, burden) => {
    const estimate = holes(inGrade(grade(name), stuffed), FIGURES);
    expect(estimate.newOldAllowance).toBe(48);
    expect(estimate.burden).toBe(burden);
  });

  it('half way where the grade is known within bounds, and as worn where the unit is worn', () => {
    expect(holes(inGrade({ lo: grade('sound'), hi: grade('worn') }, stuffed), FIGURES).burden).toBe(72);
    expect(holes(inGrade(grade('sound'), { ...stuffed, state: 'worn' }), FIGURES).burden).toBe(96);
  });

  it('by the areas of the fabrics where nobody noted what lies where', () => {
    // One unit in sixteen is weak: (15 × 1 + 1 × 5) ÷ 16 = 1.25.
    expect(holes(inGrade(grade('weak'), { action: 'restuff', count: 1 }), FIGURES).burden).toBe(60);
  });

  it('and on the old back by its own grade: worn where that is unknown', () => {
    const tied = planFor(blocks, { width: 40, height: 40 }, [], {
      treatment: 'tie',
      joining: 'ties',
      pattern: 'every crossing',
    });
    // Nine ties of two holes; the grade of the top is not known, so its holes count twice as well.
    expect(holes(tied, FIGURES).burden).toBe(18 * 2 + 18 * 2);
    expect(holes(tied, FIGURES, { oldBackingGrade: 'fragile' }).burden).toBe(18 * 2 + 18 * 20);
  });
});
