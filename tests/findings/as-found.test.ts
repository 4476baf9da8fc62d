import { describe, expect, it } from 'vitest';
import { family, found, letters, planned, sketch, states } from './quilts.ts';
import { vocabulary } from './vocabulary-fixture.ts';

/** Worked out by rooms that know plans or the studio, not by a survey. */
const NOT_OF_THE_SURVEY = ['washing_practice'];

describe('facts as found', () => {
  it('have a key for every finding of the quilt, and none for those of a plan', () => {
    const keys = Object.keys(found(sketch()));
    const quilt = [...vocabulary.findings.values()].filter(({ per }) => per === 'quilt');
    expect(keys).toEqual(quilt.map(({ id }) => `finding.${id}`));
    expect(keys).not.toContain('finding.line_fragility');
  });

  it('know every derived finding once the survey is complete', () => {
    const facts = found(
      sketch({
        rows: 2,
        columns: 2,
        quilt: {
          batting: { kind: 'none' },
          backing: { kind: 'own', fragility: 'sound', damaged: 0 },
          joining: { kind: 'lines', gap: 4, missing: 0.05 },
          made: { about: 1930 },
        },
        survey: {
          families: { A: family('worn') },
          units: states('.x', '.w'),
          joins: { inspected: 4, open: 1, thread: 1 },
        },
      }),
    );
    const unknown = [...vocabulary.findings.values()]
      .filter(({ at, per }) => at === 'derived' && per === 'quilt')
      .filter(({ id }) => facts[`finding.${id}`] === undefined);
    expect(unknown.map(({ id }) => id).filter((id) => !NOT_OF_THE_SURVEY.includes(id))).toEqual([]);
    expect(facts['finding.old_joining_intact']).toBe(true);
  });

  it('of a case that says nothing are unknown, never harmless', () => {
    const facts = found(sketch());
    for (const id of [
      'damp',
      'loss',
      'governing_fragility',
      'join_failure',
      'self_destructing',
      'dye_bleed',
      'silk_present',
    ]) {
      expect(facts[`finding.${id}`], id).toBeUndefined();
    }
    expect(facts['finding.delicate_fibre']).toBe(true);
    expect(facts['finding.unseen_share']).toBe(1);
    expect(facts['finding.opened']).toBe(false);
  });

  it('read each place of the case file', () => {
    const facts = found(
      sketch({
        quilt: {
          construction: 'pieced',
          backing: { kind: 'own', fragility: 'fragile', damaged: 0.4 },
          binding: { fragility: 'sound', worn: 0.05 },
          sewn: { piecing: 'hand', stitches_per_inch: 8 },
          weight: 3.2,
        },
        survey: { findings: { damp: false, odour: 'on_unfolding', mould_area: 12 } },
        case: { client: { intended_use: 'display', hung: true, budget: 1100, owners_agree: true } },
      }),
    );
    expect(facts).toMatchObject({
      'finding.intended_use': 'display',
      'finding.hung': true,
      'finding.budget': 1100,
      'finding.backing_fragility': 3,
      'finding.backing_damaged': 0.4,
      'finding.piecing': 'hand',
      'finding.weight': 3.2,
      'finding.damp': false,
      'finding.odour': 2,
      'finding.mould_area': 12,
      'finding.seen': 'in hand',
      'finding.area': 10_000,
    });
  });

  it('take a backing graded from photos to be that good at best', () => {
    const c = sketch({ quilt: { backing: { fragility: 'worn' } }, survey: { seen: 'photos' } });
    expect(found(c)['finding.backing_fragility']).toEqual({ lo: 1, hi: 4 });
  });

  it('follow from what falls away only where nothing else is stated', () => {
    const bed = { client: { intended_use: 'guest_bed' } } as const;
    expect(found(sketch({ case: bed }))['finding.hung']).toBe(false);
    const stated = { client: { intended_use: 'guest_bed', hung: true } } as const;
    expect(found(sketch({ case: stated }))['finding.hung']).toBe(true);
  });

  it('say opened once a later look says so', () => {
    const c = sketch({ case: { resurveys: [{ opened: true }, { joins: { inspected: 10, open: 1 } }] } });
    expect(found(c)['finding.opened']).toBe(true);
  });
});

describe('loss within bounds', () => {
  it('lies between what is seen lost and that with all that is unseen', () => {
    const c = sketch({
      rows: 2,
      columns: 5,
      survey: { families: { A: family('worn') }, units: states('x....', '...??') },
    });
    expect(found(c)['finding.loss']).toEqual({ lo: 0.1, hi: 0.3 });
    expect(found(c)['finding.unseen_share']).toBe(0.2);
  });

  it('counts a failing family whole', () => {
    const c = sketch({
      rows: 2,
      columns: 5,
      survey: {
        families: { A: family('sound'), B: family('failing') },
        units: states('x....', '.....'),
        family_map: letters('AAABB', 'AAABB'),
      },
    });
    expect(found(c)['finding.loss']).toBe(0.5);
    expect(found(c)['finding.loss_by_count']).toBe(0.5);
    expect(found(c)['finding.worst_family_loss']).toBe(1);
  });

  it('meets a mark of 15 % exactly when 10 % and 5 % come together', () => {
    const c = sketch({
      survey: { families: { A: family('worn') }, counts: { of: 100, lost: 10, missing: 5 } },
    });
    expect(found(c)['finding.loss']).toBe(0.15);
  });
});

describe('governing fragility', () => {
  const mixed = (weak: number) =>
    sketch({
      survey: {
        families: { A: family('sound', { share: 1 - weak }), B: family('weak', { share: weak }) },
        counts: { of: 100 },
      },
    });

  it('needs a tenth of the top: 10 % governs, 9 % does not', () => {
    // The ten-per-cent mark: common practice, no source.
    expect(found(mixed(0.1))['finding.governing_fragility']).toBe(2);
    expect(found(mixed(0.09))['finding.governing_fragility']).toBe(0);
    expect(found(mixed(0.09))['finding.worst_fragility']).toBe(2);
  });

  it('counts worse cloth towards a grade: 6 % weak and 6 % fragile are weak', () => {
    const families = {
      A: family('sound', { share: 0.88 }),
      B: family('weak', { share: 0.06 }),
      C: family('fragile', { share: 0.06 }),
    };
    const c = sketch({ survey: { families, counts: { of: 100 } } });
    expect(found(c)['finding.governing_fragility']).toBe(2);
  });

  it('takes a unit marked worn to be at least worn', () => {
    const marks = (worn: number) => {
      const flat = 'w'.repeat(worn).padEnd(10, '.');
      return sketch({
        rows: 2,
        columns: 5,
        survey: { families: { A: family('sound') }, units: states(flat.slice(0, 5), flat.slice(5)) },
      });
    };
    expect(found(marks(1))['finding.governing_fragility']).toBe(1);
    expect(found(marks(0))['finding.governing_fragility']).toBe(0);
  });

  it('is a span where a grade is not known', () => {
    const families = { A: family('worn', { share: 0.7 }), B: { share: 0.3 } };
    const c = sketch({ survey: { families, counts: { of: 100 } } });
    expect(found(c)['finding.governing_fragility']).toEqual({ lo: 1, hi: 4 });
  });

  it('from photos can only be worse', () => {
    const c = sketch({ survey: { seen: 'photos', families: { A: family('weak') }, counts: { of: 100 } } });
    expect(found(c)['finding.governing_fragility']).toEqual({ lo: 2, hi: 4 });
  });

  it('goes by the shares of the families where nothing was counted, and loss is then unknown', () => {
    const families = { A: family('worn', { share: 0.7 }), B: family('fragile', { share: 0.3 }) };
    const facts = found(sketch({ survey: { families } }));
    expect(facts['finding.governing_fragility']).toBe(3);
    expect(facts['finding.unseen_share']).toBe(1);
  });
});

describe('patches sewn over weak cloth', () => {
  // Column 3 is weak; the rest is sound or, in the second case, has a weak column beside it.
  const columns = (map: string) =>
    sketch({
      rows: 4,
      columns: 5,
      survey: {
        families: { A: family('sound'), B: family('weak'), C: family('fragile') },
        units: states('.....', '.....', '.....', '.....'),
        family_map: letters(map, map, map, map),
      },
    });

  it('count as sound between sound neighbours', () => {
    const facts = planned(columns('AABAA'), ({ family: of }) => (of === 'B' ? 'patch_over' : 'keep'));
    expect(facts['planned.governing_fragility']).toBe(0);
    expect(facts['planned.weak_share']).toBe(0);
  });

  it('do not count beside cloth that cannot hold their edge', () => {
    const facts = planned(columns('AABCA'), ({ family: of }) => (of === 'B' ? 'patch_over' : 'keep'));
    expect(facts['planned.weak_share']).toBe(0.4);
    const both = planned(columns('AABCA'), ({ family: of }) => (of === 'A' ? 'keep' : 'patch_over'));
    expect(both['planned.weak_share']).toBe(0);
  });

  it('keep the dye underneath, which replacing takes out', () => {
    const c = sketch({
      survey: {
        families: {
          A: family('sound', { share: 0.8 }),
          B: family('weak', { share: 0.2, dye_bleed: 'clear', self_destructing: true }),
        },
        counts: { of: 100 },
      },
    });
    const patched = planned(c, ({ family: of }) => (of === 'B' ? 'patch_over' : 'keep'));
    expect(patched['planned.dye_bleed']).toBe(3);
    expect(patched['planned.self_destructing']).toBe(false);
    const replaced = planned(c, ({ family: of }) => (of === 'B' ? 'replace' : 'keep'));
    expect(replaced['planned.dye_bleed']).toBe(0);
  });

  it('treat the seams under them, by position where seams are listed', () => {
    const c = columns('AABAA');
    const listed = {
      ...c,
      survey: {
        ...c.survey,
        joins: {
          inspected: 31,
          open_at: [
            { between: ['A2', 'A3'] as const, cause: 'cloth' as const },
            { between: ['A1', 'B1'] as const, cause: 'cloth' as const },
            { between: ['C1', 'C2'] as const, cause: 'thread' as const },
          ],
        },
      },
    };
    expect(found(listed)['finding.cloth_share_of_failures']).toBeCloseTo(2 / 3, 9);
    const facts = planned(listed, ({ family: of }) => (of === 'B' ? 'patch_over' : 'keep'));
    expect(facts['planned.cloth_share_of_failures']).toBeCloseTo(1 / 3, 9);
    expect(facts['planned.cloth_joins_of_seen']).toBeCloseTo(1 / 31, 9);
  });

  it('treat all seams torn by weak cloth once all weak cloth is patched, where only counts are known', () => {
    const c = sketch({
      survey: {
        families: { A: family('sound', { share: 0.8 }), B: family('weak', { share: 0.2 }) },
        counts: { of: 100 },
        joins: { inspected: 180, open: 20, cloth: 12, thread: 8 },
      },
    });
    const facts = planned(c, ({ family: of }) => (of === 'B' ? 'patch_over' : 'keep'));
    expect(facts['planned.cloth_joins_of_seen']).toBe(0);
    const kept = planned(c, () => 'keep');
    expect(kept['planned.cloth_joins_of_seen']).toBeCloseTo(12 / 180, 9);
  });
});

describe('loss in the outer rows only', () => {
  const at = (...rows: string[]) =>
    found(sketch({ rows: 3, columns: 4, survey: { units: states(...rows) } }));

  it('is read from the map', () => {
    expect(at('x...', '....', '...h')['finding.loss_in_outer_rows_only']).toBe(true);
    expect(at('x...', '.x..', '....')['finding.loss_in_outer_rows_only']).toBe(false);
    expect(at('x...', '.?..', '....')['finding.loss_in_outer_rows_only']).toBeUndefined();
    expect(at('....', '....', '....')['finding.loss_in_outer_rows_only']).toBe(false);
  });

  it('is as stated where it is stated', () => {
    const c = sketch({ survey: { findings: { loss_in_outer_rows_only: true } } });
    expect(found(c)['finding.loss_in_outer_rows_only']).toBe(true);
  });
});
