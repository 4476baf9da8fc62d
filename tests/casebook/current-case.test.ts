import { describe, expect, it } from 'vitest';
import { currentCase } from '../../src/casebook/current-case.ts';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { changed, readOrchard } from './reading.ts';

const read = (text?: string): QuiltCase => {
  const found = readOrchard(text).case;
  if (!found) throw new Error('The fixture does not read');
  return found;
};

const withLooks = (looks: string): QuiltCase => {
  const [head = '', tail = ''] = changed('resurveys:\n', 'resurveys:\n@@').split('@@');
  return read(`${head}${looks}${tail.slice(tail.indexOf('photos:'))}`);
};

describe('a case after its later looks', () => {
  const found = read();
  const now = currentCase(found);

  it('takes what the look states and keeps the rest', () => {
    expect(now.quilt.backing).toEqual({ kind: 'own', fragility: 'worn', damaged: 0.15 });
    expect(now.quilt.batting).toMatchObject({ kind: 'loose', migrated: 0.3, crumbling: false });
    expect(now.survey.findings).toEqual({ mould_area: 3, live_pests: false });
    expect(now.survey.families).toEqual(found.survey.families);
    expect(now.lookedInside).toBe(true);
    expect(now.survey.on).toBe('2026-04-15');
    expect(now.opened).toBe('2026-04-06');
  });

  it('lets counts stand in place of the older map', () => {
    expect(now.survey.counts).toEqual({ of: 30, lost: 2, missing: 1, hole: 3 });
    expect(now.survey.units).toBeUndefined();
    expect(now.survey.family_map).toEqual(found.survey.family_map);
  });

  it('loses nothing: the first survey and every look are still there', () => {
    expect(now.resurveys).toEqual(found.resurveys);
    expect(found.survey.units).toHaveLength(5);
    expect(currentCase(now).survey).toEqual(now.survey);
  });

  it('goes by the dates, not by the order of the file', () => {
    const late = '  - { on: 2026-05-02, quilt: { backing: { damaged: 50 % } } }\n';
    const early =
      '  - { on: 2026-04-20, opened: yes, quilt: { backing: { damaged: 20 %, fragility: weak } } }\n';
    for (const looks of [late + early, early + late]) {
      const { quilt, survey } = currentCase(withLooks(looks));
      expect(quilt.backing).toEqual({ kind: 'own', fragility: 'weak', damaged: 0.5 });
      expect(survey.on).toBe('2026-05-02');
    }
  });

  it('merges one family without touching the others', () => {
    const { survey } = currentCase(
      withLooks('  - { on: 2026-05-02, families: { A: { fragility: fragile } } }\n'),
    );
    expect(survey.families?.A).toMatchObject({ name: 'madder', fragility: 'fragile' });
    expect(survey.families?.B?.fragility).toBe('sound');
  });

  it('replaces joins as a whole, so that old causes are not added to new counts', () => {
    const { survey } = currentCase(withLooks('  - { on: 2026-05-02, joins: { inspected: 49, open: 12 } }\n'));
    expect(survey.joins).toEqual({ inspected: 49, open: 12 });
  });

  it('keeps a map where a later look counts nothing', () => {
    const { survey, lookedInside } = currentCase(
      withLooks('  - { on: 2026-05-02, findings: { live_pests: yes } }\n'),
    );
    expect(survey.units).toHaveLength(5);
    expect(lookedInside).toBe(false);
  });

  it('does not let a later photo undo what hands found, unless it grades cloth', () => {
    const seen = (look: string) =>
      currentCase(withLooks(`  - { on: 2026-05-02, seen: photos, ${look} }\n`)).survey.seen;
    expect(seen('findings: { live_pests: yes }')).toBe('in hand');
    expect(seen('families: { A: { fragility: fragile } }')).toBe('photos');
    expect(seen('opened: yes')).toBe('in hand');
  });
});
