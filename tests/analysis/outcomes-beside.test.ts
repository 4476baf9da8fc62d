import { describe, expect, it } from 'vitest';
import type { CaseChange } from '../../src/analysis/compare.ts';
import { printTried } from '../../src/documents/terminal/coverage.ts';

const change: CaseChange = {
  case: 'barley-strips',
  file: 'cases/barley-strips.yaml',
  from: 'studio',
  changes: [{ of: 'treatment', from: 'reassemble', to: 'lines' }],
  because: ['sound-enough-to-put-back-together'],
  decided: [],
  outcome: { wholeAt: 1, dueAt: 2, followups: 2 },
};

describe('a rulebook tried on past cases', () => {
  it('shows beside each change how the repair has held since, where somebody looked', () => {
    const said = (one: CaseChange): string =>
      printTried([one], [], 1, { width: 80, color: false }).replace(/\s+/g, ' ');
    expect(said(change)).toContain('since then: repair due between 1.0 and 2.0 years');
    expect(said({ ...change, outcome: { wholeAt: 3, dueAt: undefined, followups: 1 } })).toContain(
      'held 3.0 years so far',
    );
    expect(said({ ...change, outcome: null })).not.toContain('since then');
  });
});
