import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { printProblems } from '../../src/problems/print.ts';
import { type Problem, ProblemError } from '../../src/problems/problem.ts';
import { readKnowledge } from '../../src/rulebook/knowledge.ts';
import { SLIPS } from '../casebook/slips.ts';
import { MISTAKES, RULES } from './seeded-mistakes.ts';

const folder = new URL('../../rules/', import.meta.url);
const QUIET = (name: string): string => `- rule: quiet-${name}
  title: Invented
  when: { all: [{ ${name === 'units' ? 'unit: state, is: missing' : 'finding: weight, more than: 50 lb'} }] }
  then: { ${name === 'units' ? 'action: replace' : 'ask: What?'} }
  because: It is invented.
  evidence: assumption
  source: invented
  since: 2026-01-01
`;

/** What is said of a book whose `extent` rules are this text. */
function problemsOf(text: string): readonly Problem[] {
  try {
    readKnowledge((file) => {
      if (file === 'stages/extent.yaml') return { file, text };
      if (file === 'findings.yaml' || file === 'figures.yaml')
        return { file, text: readFileSync(new URL(file, folder), 'utf8') };
      return { file, text: QUIET(file.replace(/^stages\/|\.yaml$/g, '')) };
    });
    return [];
  } catch (error) {
    if (error instanceof ProblemError) return error.problems;
    throw error;
  }
}

describe('mistakes in rule files', () => {
  it('are none in the rules they are put into', () => {
    expect(printProblems(problemsOf(RULES))).toBe('');
  });

  it('number, with those put into a case file, at least a hundred', () => {
    expect(MISTAKES.length).toBeGreaterThanOrEqual(100);
    expect(MISTAKES.length + SLIPS.length).toBeGreaterThanOrEqual(160);
    expect(new Set(MISTAKES.map(({ name }) => name)).size).toBe(MISTAKES.length);
  });

  const results = MISTAKES.map(({ name, from, to, line }) => {
    const text = RULES.replace(from, to);
    const problems = problemsOf(text);
    const hit = problems.find(
      ({ place, severity }) =>
        severity === 'error' && place?.file === 'stages/extent.yaml' && place.line === line,
    );
    return { name, changed: text !== RULES, problems, hit, line };
  });

  it.each(results)('$name is refused, and never by a stack trace', ({ changed, problems }) => {
    expect(changed).toBe(true);
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.map(({ code }) => code)).not.toContain('internal');
    // One slip is not buried under its echoes.
    expect(problems.length).toBeLessThanOrEqual(8);
    expect(printProblems(problems)).toMatch(/Do: \S/);
  });

  it('are reported on the right line, at least ninety-five in a hundred', () => {
    const missed = results.filter(({ hit }) => hit === undefined);
    const told = missed.map(
      ({ name, line, problems }) =>
        `${name}: wanted ${line}, got ${problems.map(({ place, code }) => `${place?.line} ${code}`).join('; ')}`,
    );
    expect(missed.length / results.length, told.join('\n')).toBeLessThanOrEqual(0.05);
  });

  it('in one file are all reported in one run', () => {
    const several = RULES.replace('finding: loss', 'finding: los')
      .replace('stand: refer', 'stand: reffer')
      .replace('at least: weak', 'at least: waek')
      .replace('evidence: assumption', 'evidence: guess');
    expect(
      problemsOf(several)
        .map(({ place }) => place?.line)
        .sort((a = 0, b = 0) => a - b),
    ).toEqual([6, 14, 28, 34]);
  });

  it('that would unfold without end are refused at once', () => {
    const bomb = [
      'a: &a [x, x]',
      ...'bcdefghij'
        .split('')
        .map((name, index) => `${name}: &${name} [*${'abcdefghi'[index]}, *${'abcdefghi'[index]}]`),
    ].join('\n');
    const problems = problemsOf(bomb);
    expect(new Set(problems.map(({ code }) => code))).toEqual(new Set(['yaml-alias']));
    expect(problemsOf(`${'['.repeat(20_000)}`).map(({ code }) => code)).toEqual(['too-deep']);
  });
});
