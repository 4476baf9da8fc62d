import { describe, expect, it } from 'vitest';
import { familyFacts, unitFacts } from '../../src/findings/fragility-facts.ts';
import { exactly } from './exactly.ts';
import { family, sketch, surveyed } from './quilts.ts';

describe('facts of a family and of a unit', () => {
  const quilt = surveyed(
    sketch({
      survey: {
        families: {
          A: family('weak', { share: 0.4, fibre: 'silk', dye_bleed: 'clear', lost: 3 }),
          B: { name: 'plaid', fibre: 'unknown' },
        },
        counts: { of: 100, lost: 3 },
      },
    }),
  );

  it('speak of the family', () => {
    expect(familyFacts(quilt, 'A')).toEqual({
      'family.fragility': 2,
      'family.fibre': 'silk',
      'family.dye_bleed': 3,
      'family.self_destructing': false,
      'family.share': 0.4,
      'family.lost': 3,
    });
  });

  it('leave unknown what is not stated', () => {
    const facts = familyFacts(quilt, 'B');
    expect(facts['family.fragility']).toBeUndefined();
    expect(facts['family.fibre']).toBeUndefined();
    expect(facts['family.share']).toEqual({ lo: 0, hi: 0.6 });
    expect(Object.values(familyFacts(quilt, undefined)).every((fact) => fact === undefined)).toBe(true);
  });

  it('know no state of a unit nobody has seen', () => {
    const group = { family: 'A', count: 1, ...exactly(0.01) };
    expect(unitFacts({ ...group, state: 'hole' })).toEqual([{ 'unit.state': 'hole' }]);
    expect(unitFacts({ ...group, state: 'unseen' })).toEqual([{ 'unit.state': undefined }]);
    const flatToo = unitFacts({ ...group, state: 'split', also: ['flattened'] });
    expect(flatToo.map((own) => own['unit.state'])).toEqual(['split', 'flattened']);
  });
});
