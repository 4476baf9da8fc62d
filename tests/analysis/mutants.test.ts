import { describe, expect, it } from 'vitest';
import { changedRules } from '../../src/analysis/align-rulebooks.ts';
import { canDiffer } from '../tools/can-differ.ts';
import { mutantsOf } from '../tools/mutants.ts';
import { bookOf, rule, shipped } from './book.ts';

const mutants = (when: string, effects: string) => {
  const knowledge = bookOf({ joining: [rule('one', when, effects)] });
  const found = knowledge.rulebook.rules.find(({ id }) => id === 'one');
  if (found === undefined) throw new Error('no rule');
  return { knowledge, list: mutantsOf(found, knowledge.subjects) };
};

describe('mutants of a rule', () => {
  it('shift each threshold a step both ways, as far as its scale goes', () => {
    const { list } = mutants(
      '{ all: [{ finding: loss, more than: 0 % }, { planned: governing_fragility, at least: weak }] }',
      '{ ask: What? }',
    );
    expect(list.filter(({ kind }) => kind === 'threshold').map(({ what }) => what)).toEqual([
      'the mark of loss goes from 0 % to 1 %',
      'the mark of governing_fragility goes from weak to worn',
      'the mark of governing_fragility goes from weak to fragile',
    ]);
  });

  it('leave out each condition, nested ones too, and turn or lose each effect', () => {
    const { list } = mutants(
      '{ all: [{ finding: damp, is: yes }, { any: [{ finding: hung, is: yes }, { finding: hung, is unknown: yes }] }] }',
      '{ prefer: { plan: treatment, is: tie } }',
    );
    expect(list.filter(({ kind }) => kind === 'condition')).toHaveLength(4);
    expect(
      list.filter(({ kind }) => kind === 'effect').map(({ mutated }) => Object.keys(mutated.effects)),
    ).toEqual([['avoid'], []]);
  });

  it('that no facts tell from the rule are known for what they are', () => {
    // Only lines run one way: whether the joining is asked for as well makes no difference.
    const { knowledge, list } = mutants(
      '{ all: [{ plan: joining, is: lines }, { plan: directions, is not: both }] }',
      '{ avoid: this plan }',
    );
    const alike = list.filter((mutant) => !canDiffer(mutant, knowledge.rulebook.rules, knowledge));
    expect(alike.map(({ what }) => what)).toEqual(['a condition on joining is left out']);
  });
});

describe('two books', () => {
  it('differ in the rules whose meaning differs, wherever they stand', () => {
    const one = rule('one', '{ all: [{ finding: damp, is: yes }] }', '{ ask: What? }');
    const two = rule('two', '{ all: [{ finding: hung, is: yes }] }', '{ ask: Where? }');
    const a = bookOf({ stop: [one, two] }).rulebook.rules;
    expect(changedRules(a, bookOf({ stop: [two, one] }).rulebook.rules)).toEqual([]);
    expect(changedRules(a, bookOf({ stop: [one, two.replace('Where', 'When')] }).rulebook.rules)).toEqual([
      'two',
    ]);
    expect(changedRules(a, bookOf({ stop: [two] }).rulebook.rules)).toEqual(['one']);
    expect(changedRules(shipped().rulebook.rules, shipped().rulebook.rules)).toEqual([]);
  });
});
