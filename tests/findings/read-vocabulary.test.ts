import { describe, expect, it } from 'vitest';
import { GRADES, UNIT_STATES, USES } from '../../src/casebook/scales.ts';
import { readVocabulary } from '../../src/findings/read-vocabulary.ts';
import { factOfOption, pathOf } from '../../src/findings/vocabulary.ts';
import type { Problem } from '../../src/problems/problem.ts';
import { ProblemError } from '../../src/problems/problem.ts';
import { vocabulary, vocabularyText } from './vocabulary-fixture.ts';

/** Names the case-file contract fixes. */
const CONTRACT =
  'intended_use wish hung budget owners_agree wanted_years construction weight piecing stitches_per_inch made_about ' +
  'made_sure damp live_pests rodent_waste sewage_or_fuel old_green_or_pesticide tied_to_event for_sale museum_quality ' +
  'outstanding_work through_hole loss_in_outer_rows_only wash_wanted cut_up_wanted hidden_quilt mould_area pest_traces ' +
  'odour inscription monetary_value shattering_silk strip_allowance deadline_weeks batting_kind batting_fibre ' +
  'batting_rated_gap batting_migrated batting_crumbling backing_kind backing_fragility backing_damaged ' +
  'binding_fragility binding_worn joining_kind joining_gap joining_missing';

const optionsOf = (id: string): readonly string[] =>
  (vocabulary.findings.get(id) ?? vocabulary.family.get(id) ?? vocabulary.unit.get(id))?.options.map(
    ({ value }) => value,
  ) ?? [];

const problemsIn = (text: string): readonly Problem[] => {
  try {
    readVocabulary('findings.yaml', text);
  } catch (error) {
    if (error instanceof ProblemError) return error.problems;
    throw error;
  }
  return [];
};

/** The shipped file with one slip in it. */
const slip = (from: string, to: string): readonly Problem[] => {
  expect(vocabularyText.includes(from), from).toBe(true);
  return problemsIn(vocabularyText.replace(from, to));
};

describe('the shipped vocabulary', () => {
  it('names everything the case-file contract names', () => {
    const missing = CONTRACT.split(' ').filter((id) => !vocabulary.findings.has(id));
    expect(missing).toEqual([]);
    expect([...vocabulary.family.keys()]).toEqual(
      expect.arrayContaining(['fragility', 'fibre', 'dye_bleed', 'self_destructing', 'share', 'lost']),
    );
  });

  it('offers the options the contract lists, in its order', () => {
    expect(optionsOf('intended_use')).toEqual(USES);
    expect(optionsOf('pest_traces')).toEqual(['none', 'cast_skins', 'grazing']);
    expect(optionsOf('odour')).toEqual(['none', 'close', 'on_unfolding', 'in_the_room', 'unbearable']);
    expect(optionsOf('inscription')).toEqual(['none', 'initials', 'names', 'names_and_date']);
    expect(optionsOf('backing_fragility')).toEqual(GRADES);
    expect(optionsOf('state')).toEqual(Object.keys(UNIT_STATES).filter((state) => state !== 'unseen'));
  });

  it('describes every grade by look, pinch, tug and needle, and says when to stop', () => {
    for (const { value, anchors } of vocabulary.grades) {
      for (const way of ['look', 'pinch', 'tug', 'needle'])
        expect(anchors[way], `${value} ${way}`).toMatch(/\w/);
    }
    expect(vocabulary.stopRule).toContain('no tug and no needle');
  });

  it('tells of every finding how to look, on what it rests, and of those asked for who and at what cost', () => {
    for (const def of [...vocabulary.findings.values(), ...vocabulary.family.values()]) {
      expect(def.how.length, def.id).toBeGreaterThan(20);
      expect(def.source.length, def.id).toBeGreaterThan(5);
      if (def.at === 'derived') expect(pathOf(def), def.id).toBeUndefined();
      else expect([def.question, def.who, def.cost], def.id).not.toContain(undefined);
    }
  });

  it('weighs the values an unknown could take so that they add up to one', () => {
    for (const def of vocabulary.findings.values()) {
      if (def.at === 'derived') continue;
      const sum = def.likely.reduce((total, { weight }) => total + weight, 0);
      expect(sum, def.id).toBeCloseTo(1, 2);
    }
  });

  it('asks about hazards before anything else', () => {
    expect(vocabulary.groups[0]?.id).toBe('safety');
    expect([...vocabulary.findings.values()][0]?.group).toBe('safety');
  });

  it('holds ordered choices by index and others by name', () => {
    const odour = vocabulary.findings.get('odour');
    const fibre = vocabulary.family.get('fibre');
    expect(odour && factOfOption(odour, 'in_the_room')).toBe(3);
    expect(fibre && factOfOption(fibre, 'silk')).toBe('silk');
    expect(odour && factOfOption(odour, 'faint')).toBeUndefined();
  });
});

describe('slips in a vocabulary', () => {
  it('names an unknown key with its place and the nearest one', () => {
    const [problem] = slip('    cost: 1', '    csot: 1').filter(({ code }) => code === 'unknown-key');
    expect(problem?.didYouMean).toBe('cost');
    expect(problem?.place?.text).toContain('csot');
  });

  it('refuses a kind nobody knows', () => {
    const [problem] = slip('kind: area', 'kind: aera');
    expect(problem).toMatchObject({ code: 'not-an-option', didYouMean: 'area' });
  });

  it('refuses chances that do not add up', () => {
    const [problem] = slip('{ none: 0.9, cast_skins', '{ none: 0.5, cast_skins');
    expect(problem).toMatchObject({ code: 'sum-mismatch' });
    expect(problem?.what).toContain('pest_traces');
  });

  it('refuses a chance for an option that is not there', () => {
    const [problem] = slip('cast_skins: 0.06', 'cast_skinz: 0.06');
    expect(problem).toMatchObject({ code: 'not-an-option', didYouMean: 'cast_skins' });
  });

  it('refuses a group, a finding and an option that lead nowhere', () => {
    expect(slip('group: safety', 'group: saftey')[0]).toMatchObject({ didYouMean: 'safety' });
    expect(slip('finding: batting_kind, is: none', 'finding: bating_kind, is: none')[0]).toMatchObject({
      code: 'unknown-finding',
      didYouMean: 'batting_kind',
    });
    expect(slip('finding: batting_kind, is: none', 'finding: batting_kind, is: nine')[0]).toMatchObject({
      code: 'not-an-option',
      didYouMean: 'none',
    });
  });

  it('refuses a figure without a range, an empty range, and a likely value outside it', () => {
    expect(slip('    range: { min: 0, max: 40000 }\n', '')[0]).toMatchObject({ code: 'missing-key' });
    expect(slip('range: { min: 0, max: 40000 }', 'range: { min: 9, max: 9 }')[0]?.code).toBe('out-of-range');
    expect(slip('[0, 0, 0, 0, 0, 0, 0, 0, 40, 600]', '[0, 50000]')[0]?.what).toContain('50000');
  });

  it('refuses a question about what is derived, and a missing question about what is asked', () => {
    const derived = slip(
      '    label: share of the pieces',
      '    question: How many?\n    label: share of the pieces',
    );
    expect(derived[0]?.what).toContain('loss_by_count is derived');
    const asked = slip('    question: Is it damp', '    #');
    expect(asked.some(({ what }) => what.includes('damp'))).toBe(true);
  });

  it('refuses a scale that lacks a grade', () => {
    const [problem] = slip('  fragile:\n    label: fragile', '  brittle:\n    label: fragile');
    expect(problem?.what).toContain('lacks the grade fragile');
  });
});
