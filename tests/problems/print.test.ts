import { stripVTControlCharacters } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printProblem, printProblems } from '../../src/problems/print.ts';
import type { Place, Problem } from '../../src/problems/problem.ts';

const text = '  A: { fragility: fragil, fibre: cotton }';
const place: Place = { file: 'cases/lantern.yaml', line: 31, column: 19, length: 6, text };
const problem: Problem = {
  code: 'not-an-option',
  severity: 'error',
  what: '"fragil" is not one of the choices for fragility',
  cure: 'Use one of sound, worn, weak, fragile, failing.',
  didYouMean: 'fragile',
  place,
};

describe('one problem', () => {
  it('says where, what, why and what to do, with a mark under the word', () => {
    expect(printProblem(problem)).toBe(
      [
        'cases/lantern.yaml:31:19: error: "fragil" is not one of the choices for fragility   [not-an-option]',
        '   31 |   A: { fragility: fragil, fibre: cotton }',
        '      |                   ^^^^^^ did you mean "fragile"?',
        '  Why: Rules compare against the listed choices only, so any other word could',
        '       never match.',
        '  Do: Use one of sound, worn, weak, fragile, failing.',
      ].join('\n'),
    );
  });

  it('does without a place', () => {
    const printed = printProblem({
      code: 'usage',
      severity: 'error',
      what: '"decyde" is no command',
      didYouMean: 'decide',
    });
    expect(printed.split('\n').slice(0, 2)).toEqual([
      'error: "decyde" is no command   [usage]',
      '  did you mean "decide"?',
    ]);
  });

  it('says the same with and without colour', () => {
    const colored = printProblem(problem, { color: true });
    expect(colored).toContain('\u001B[');
    expect(stripVTControlCharacters(colored)).toBe(printProblem(problem));
  });

  it('keeps the mark under the word whatever the line and the width', () => {
    const words = fc.stringMatching(/^[a-z ]{0,150}$/);
    fc.assert(
      fc.property(words, words, fc.integer({ min: 40, max: 120 }), (before, after, width) => {
        const line = `${before}MARK${after}`;
        const at: Place = { file: 'f', line: 7, column: before.length + 1, length: 4, text: line };
        const [, shown = '', carets = ''] = printProblem(
          { ...problem, place: at, didYouMean: '' },
          { width },
        ).split('\n');
        const start = carets.indexOf('^');
        expect(shown.slice(start, start + 4)).toBe('MARK');
        expect(shown.length).toBeLessThanOrEqual(width);
      }),
    );
  });

  it('keeps the mark in its column behind a tab', () => {
    const at: Place = { file: 'f', line: 1, column: 4, length: 1, text: 'a:\tb' };
    expect(printProblem({ ...problem, place: at }).split('\n')[2]).toMatch(/\| {3}\t\^/);
  });
});

describe('several problems', () => {
  const at = (file: string, line: number, column: number): Place => ({
    file,
    line,
    column,
    length: 1,
    text: 'x',
  });

  it('come by file, line and column, with a count at the end', () => {
    const printed = printProblems([
      { ...problem, place: at('b', 1, 1) },
      { ...problem, severity: 'warning', place: at('a', 10, 2) },
      { ...problem, place: at('a', 9, 7) },
      { code: 'usage', severity: 'error', what: 'no place' },
    ]);
    expect(printed.split('\n').flatMap((line) => /^(\w+:\d+:\d+|error)/.exec(line)?.[0] ?? [])).toEqual([
      'error',
      'a:9:7',
      'a:10:2',
      'b:1:1',
    ]);
    expect(printed.endsWith('\n\n3 errors, 1 warning')).toBe(true);
  });

  it('counts one as one and prints nothing for none', () => {
    expect(printProblems([problem]).split('\n').at(-1)).toBe('1 error');
    expect(printProblems([])).toBe('');
  });
});
