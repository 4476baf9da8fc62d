import { describe, expect, it } from 'vitest';
import { family, found, letters, planned, sketch, states, surveyed } from './quilts.ts';

// The arithmetic re-invents the worked scenarios of the trade brief, section 10: common practice, no source.

describe('a wall quilt with one weak brown print in 18 of 63 blocks', () => {
  const tan = { name: 'shirtings', ...family('worn') };
  const brown = {
    name: 'brown sprig',
    ...family('weak', { dye_bleed: 'trace_with_water', self_destructing: true }),
  };
  // 7 columns, 9 rows; two browns a row; the first eight are lost.
  const map = Array.from({ length: 9 }, () => 'TBTTTBT');
  const marks = Array.from({ length: 9 }, (_, row) => (row < 4 ? '.x...x.' : '.......'));
  const mapped = sketch({
    rows: 9,
    columns: 7,
    survey: {
      families: { T: tan, B: brown },
      units: states(...marks),
      family_map: letters(...map),
      joins: { inspected: 110, open: 14, thread: 5, cloth: 9 },
    },
  });

  it('counts families, loss and seams as the worked example does', () => {
    const facts = found(mapped);
    expect(surveyed(mapped).families.B?.share).toBeCloseTo(0.286, 3);
    expect(facts['finding.loss']).toBeCloseTo(0.127, 3);
    expect(facts['finding.loss_by_count']).toBeCloseTo(8 / 63, 9);
    expect(facts['finding.worst_family_loss']).toBeCloseTo(8 / 18, 9);
    expect(facts['finding.weak_share']).toBeCloseTo(10 / 63, 9);
    expect(facts['finding.weak_families']).toBe(1);
    expect(facts['finding.weak_families_share']).toBeCloseTo(18 / 63, 9);
    expect(facts['finding.join_failure']).toBeCloseTo(0.127, 3);
    expect(facts['finding.cloth_share_of_failures']).toBeCloseTo(9 / 14, 9);
    expect(facts['finding.allowance_gone_share']).toBe(0);
    expect(facts['finding.governing_fragility']).toBe(2);
    expect(facts['finding.dye_bleed']).toBe(2);
    expect(facts['finding.self_destructing']).toBe(true);
  });

  it('stays weak when only the lost blocks are replaced: 10 of 63 is more than a tenth', () => {
    const facts = planned(mapped, ({ state }) => (state === 'lost' ? 'replace' : 'keep'));
    expect(facts['planned.weak_share']).toBeCloseTo(0.159, 3);
    expect(facts['planned.governing_fragility']).toBe(2);
    expect(facts['planned.loss']).toBe(0);
    expect(facts['planned.self_destructing']).toBe(true);
  });

  it('is not upgraded by an overlay, and is by replacing all of the brown', () => {
    const overlaid = planned(mapped, ({ family: of }) => (of === 'B' ? 'overlay' : 'keep'));
    expect(overlaid['planned.governing_fragility']).toBe(2);
    expect(overlaid['planned.loss']).toBeCloseTo(8 / 63, 9);
    const replaced = planned(mapped, ({ family: of }) => (of === 'B' ? 'replace' : 'keep'));
    expect(replaced['planned.governing_fragility']).toBe(1);
    expect(replaced['planned.weak_families']).toBe(0);
    expect(replaced['planned.dye_bleed']).toBe(0);
    expect(replaced['planned.self_destructing']).toBe(false);
  });

  it('says the same from counts and shares as from the map', () => {
    const counted = sketch({
      rows: 9,
      columns: 7,
      survey: {
        families: { T: { ...tan, share: 45 / 63, lost: 0 }, B: { ...brown, share: 18 / 63, lost: 8 } },
        counts: { of: 63, lost: 8 },
        joins: { inspected: 110, open: 14, thread: 5, cloth: 9 },
      },
    });
    const [fromMap, fromCounts] = [found(mapped), found(counted)];
    for (const id of [
      'loss',
      'governing_fragility',
      'weak_share',
      'worst_family_loss',
      'self_destructing_share',
    ]) {
      expect(fromCounts[`finding.${id}`], id).toEqual(fromMap[`finding.${id}`]);
    }
    expect(fromCounts['finding.mapped']).toBe(false);
  });
});

describe('a spread whose thread has failed', () => {
  const spread = sketch({
    rows: 8,
    columns: 8,
    quilt: {
      batting: { kind: 'none' },
      joining: { kind: 'none' },
      made: { about: 1950, sure: 'family account' },
    },
    survey: {
      families: { A: family('worn') },
      units: states('.e......', ...Array.from({ length: 5 }, () => '........'), '...e....', '.....e..'),
      joins: { inspected: 112, open: 19, thread: 18, cloth: 1 },
    },
  });

  it('has 17 % of its seams open, nearly all by thread, and no loss', () => {
    const facts = found(spread);
    expect(surveyed(spread).joins.total).toBe(112);
    expect(facts['finding.join_failure']).toBeCloseTo(0.1696, 4);
    expect(facts['finding.cloth_share_of_failures']).toBeCloseTo(1 / 19, 9);
    expect(facts['finding.loss']).toBe(0);
    expect(facts['finding.edge_share']).toBeCloseTo(3 / 64, 9);
    expect(facts['finding.governing_fragility']).toBe(1);
    expect(facts['finding.age_years']).toBe(76);
    expect(facts['finding.old_joining_intact']).toBe(false);
  });

  it('takes what is not there as not moved and not crumbling', () => {
    const facts = found(spread);
    expect(facts['finding.batting_migrated']).toBe(0);
    expect(facts['finding.batting_crumbling']).toBe(false);
    expect(facts['finding.batting_rated_gap']).toBeUndefined();
  });
});

describe('a tied comforter of 192 wool squares, 7 grazed away', () => {
  const comfort = sketch({
    rows: 16,
    columns: 12,
    quilt: {
      size: { width: 60, height: 80 },
      layout: { kind: 'edge to edge', rows: 16, columns: 12, finished: { width: 5, height: 5 } },
      joining: { kind: 'ties', gap: 5, missing: 0.4 },
      batting: { kind: 'loose', fibre: 'cotton', migrated: 0.45 },
    },
    survey: {
      families: { A: family('worn', { fibre: 'wool' }) },
      counts: { of: 192, lost: 7 },
      joins: { inspected: 356, open: 16, thread: 16 },
      findings: { pest_traces: 'cast_skins', live_pests: false },
    },
  });

  it('has 356 seams, 4.5 % of them open, and 3.6 % loss', () => {
    const facts = found(comfort);
    expect(surveyed(comfort).joins.total).toBe(356);
    expect(facts['finding.join_failure']).toBeCloseTo(0.045, 3);
    expect(facts['finding.loss']).toBeCloseTo(0.036, 3);
    expect(facts['finding.cloth_share_of_failures']).toBe(0);
    expect(facts['finding.pest_traces']).toBe(1);
    expect(facts['finding.wool_present']).toBe(true);
    expect(facts['finding.delicate_fibre']).toBe(true);
    expect(facts['finding.old_joining_intact']).toBe(false);
  });
});

describe('a hundred sound squares, 14 torn, 9 of them in one corner', () => {
  const squares = sketch({
    survey: {
      families: { A: family('sound') },
      counts: { of: 100, lost: 14 },
      joins: { inspected: 180, open: 12, thread: 12 },
    },
  });

  it('loses 14 % whichever way it is counted, and none once they are replaced', () => {
    const facts = found(squares);
    expect(facts['finding.loss']).toBe(0.14);
    expect(facts['finding.loss_by_count']).toBe(0.14);
    expect(facts['finding.governing_fragility']).toBe(0);
    const after = planned(squares, ({ state }) => (state === 'lost' ? 'replace' : 'keep'));
    expect(after['planned.loss']).toBe(0);
    expect(after['planned.worst_fragility']).toBe(0);
  });
});

describe('a crazy quilt of silks, 38 % failing and 30 % fragile', () => {
  const silks = sketch({
    quilt: {
      construction: 'crazy',
      size: { width: 54, height: 60 },
      layout: { kind: 'survey grid', rows: 6, columns: 5 },
    },
    survey: {
      families: {
        R: family('failing', { fibre: 'silk', dye_bleed: 'clear', share: 0.38 }),
        P: family('fragile', { fibre: 'silk', dye_bleed: 'clear', share: 0.3 }),
        V: family('weak', { fibre: 'silk', dye_bleed: 'none', share: 0.32 }),
      },
      counts: { of: 150 },
    },
  });

  it('counts failing patches as loss and lets the failing silk govern', () => {
    const facts = found(silks);
    expect(surveyed(silks).counting).toBe('patches');
    expect(facts['finding.loss']).toBeCloseTo(0.38, 9);
    expect(facts['finding.failing_share']).toBeCloseTo(0.38, 9);
    expect(facts['finding.governing_fragility']).toBe(4);
    expect(facts['finding.dye_bleed']).toBe(3);
    expect(facts['finding.silk_present']).toBe(true);
  });
});
