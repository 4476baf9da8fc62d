import { describe, expect, it } from 'vitest';
import type { Facts } from '../../src/findings/fact.ts';
import { layerFacts } from '../../src/findings/layer-facts.ts';
import { shipped } from '../decision/shipped.ts';

const of = (facts: Facts) => layerFacts(facts, shipped.figures);
const WORN = 1;

/** Steps as findings.yaml orders them: none, sound, weak, spent; none, even, shifted, spent. */
describe('the state of the layers', () => {
  it('is that of the worse of grade and damage', () => {
    const own = { backing_kind: 'own' };
    expect(of({ ...own, backing_fragility: WORN, backing_damaged: 0.2 }).backing_state).toBe(1);
    expect(of({ ...own, backing_fragility: 2, backing_damaged: 0 }).backing_state).toBe(2);
    expect(of({ ...own, backing_fragility: 0, backing_damaged: 0.21 }).backing_state).toBe(3);
    expect(of({ ...own, backing_fragility: 3 }).backing_state).toBe(3);
  });

  it('is known of a layer that is not there, whatever else is not: an impossible doubt is no doubt', () => {
    expect(of({ backing_kind: 'none' }).backing_state).toBe(0);
    expect(of({ batting_kind: 'none' }).batting_state).toBe(0);
  });

  it('keeps to bounds where part of it is not known', () => {
    expect(of({ backing_kind: 'own', backing_fragility: { lo: 2, hi: 4 } }).backing_state).toEqual({
      lo: 2,
      hi: 3,
    });
    expect(of({ backing_kind: 'own' }).backing_state).toEqual({ lo: 1, hi: 3 });
    expect(of({}).backing_state).toBeUndefined();
    expect(of({ batting_kind: 'loose', batting_migrated: 0.2 }).batting_state).toEqual({ lo: 2, hi: 3 });
    expect(of({ batting_migrated: 0.05, batting_crumbling: false }).batting_state).toEqual({ lo: 0, hi: 1 });
  });
});

describe('what is open or damaged', () => {
  const whole = {
    ...{ join_failure: 0, loss: 0, split_share: 0, hole_share: 0, edge_share: 0, flattened_share: 0 },
    ...{ backing_kind: 'own', backing_damaged: 0, binding_worn: 0.2 },
  };

  it('is named by what is surely so', () => {
    expect(of(whole).open_damage).toBe('none');
    expect(of({ ...whole, join_failure: 0.01 }).open_damage).toBe('seams');
    expect(of({ ...whole, flattened_share: 0.01 }).open_damage).toBe('pieces');
    expect(of({ ...whole, join_failure: 0.01, split_share: 0.1 }).open_damage).toBe('seams_and_pieces');
    expect(of({ ...whole, backing_damaged: 0.01 }).open_damage).toBe('backing');
    expect(of({ ...whole, binding_worn: 0.21 }).open_damage).toBe('edge');
    expect(of({ ...whole, binding_worn: 0.5, loss: 0.1 }).open_damage).toBe('several');
  });

  it('is not known where nothing surely is and something may be, and never harmless for that', () => {
    const { binding_worn: _, ...untold } = whole;
    expect(of(untold).open_damage).toBeUndefined();
    expect(of({ ...untold, join_failure: 0.1 }).open_damage).toBe('seams');
    expect(of({ ...whole, loss: { lo: 0, hi: 0.1 } }).open_damage).toBeUndefined();
  });

  it('asks neither for the back nor for the edge of a top that never had them', () => {
    const { binding_worn: _, backing_damaged: __, ...top } = whole;
    expect(of({ ...top, backing_kind: 'none' }).open_damage).toBe('none');
  });
});
