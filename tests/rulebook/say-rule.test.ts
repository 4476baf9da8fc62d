import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { inForce } from '../../src/rulebook/assemble.ts';
import { readKnowledge } from '../../src/rulebook/knowledge.ts';
import { readRules } from '../../src/rulebook/read-rules.ts';
import { type SaidCondition, sayRule } from '../../src/rulebook/say-rule.ts';
import { readYaml } from '../../src/source/read-yaml.ts';

const rules = new URL('../../rules/', import.meta.url);
const { rulebook, subjects } = readKnowledge((name) => ({
  file: `rules/${name}`,
  text: readFileSync(new URL(name, rules), 'utf8'),
}));
const STYLE = { units: 'inches', currency: '$' } as const;

const say = (text: string) => {
  const read = readYaml('own.yaml', text);
  if ('problems' in read) throw new Error(read.problems[0]?.what);
  const [rule] = readRules(read.source, 'structure', subjects).rules;
  if (rule === undefined) throw new Error('the rule does not read');
  return sayRule(rule, subjects, STYLE);
};

const ENVELOPE = `
  because: Of {loss}.
  evidence: common practice
  source: common practice, no source
  since: 2026-11-25
`;

describe('a rule in plain sentences', () => {
  test('says conditions by the labels of their findings, grades and shares in words', () => {
    const said = say(`- rule: one
  title: One
  when:
    all:
      - { finding: loss, at most: 15 % }
      - any:
          - { planned: governing_fragility, at least: weak }
          - { finding: silk_present, is: yes }
      - not: { finding: intended_use, one of: [storage, display] }
  then:
    stand: not yet
    offer: Keep it flat.${ENVELOPE}`);
    expect(said.when).toEqual({
      lead: 'all of these',
      of: [
        'share of the top that is lost is at most 15 %',
        {
          lead: 'any of these',
          of: [
            'once the repair is done, how fragile the top is on the whole is at least weak',
            'silk in it: yes',
          ],
        },
        { lead: 'not', of: ['intended use is one of kept in storage or on display'] },
      ],
    });
    expect(said.does).toEqual(['the answer is: not yet', 'offer: Keep it flat.']);
    // No quilt is at hand, so the finding's name stands where its figure would.
    expect(said.because).toBe('Of [share of the top that is lost].');
  });

  test('says which plans it speaks of', () => {
    const said = say(`- rule: two
  title: Two
  when: { finding: opened, is: yes }
  then:
    rule out: { plan: treatment, is: tie }
    call for: { plan: backing, one of: [add, replace] }${ENVELOPE}`);
    expect(said.does).toHaveLength(2);
    expect(said.does[0]).toMatch(/^rule out plans where .*tie/);
    expect(said.does[1]).toMatch(/^keep only plans where .* is one of /);
  });

  test('every shipped rule is said whole: no key, no bare fact, no blank', () => {
    const flat = (condition: SaidCondition): string[] =>
      typeof condition === 'string' ? [condition] : condition.of.flatMap(flat);
    for (const rule of inForce(rulebook, '2026-11-25').rules) {
      const said = sayRule(rule, subjects, STYLE);
      expect(said.does.length, rule.id).toBeGreaterThan(0);
      for (const sentence of [...flat(said.when), ...said.does, said.because]) {
        expect(sentence, rule.id).not.toMatch(/undefined|\[object|\{|\b(finding|planned|plan)\.\w/);
        expect(sentence.trim(), rule.id).not.toBe('');
      }
    }
  });
});
