import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Figures } from '../../src/figures/model.ts';
import { exactly } from '../../src/quantities/range.ts';

const file: { findings: Record<string, { value: number }> } = parse(
  readFileSync(new URL('../../rules/figures.yaml', import.meta.url), 'utf8'),
);

/** The shipped judgement marks of the findings room, without the rest of the rulebook. */
export const figures: Figures = {
  number: (id) => {
    const found = file.findings[id.replace(/^findings\./, '')];
    if (found === undefined) throw new Error(`no figure ${id}`);
    return found.value;
  },
  range: (id) => exactly(figures.number(id)),
  figure: (id) => {
    throw new Error(`not in this fixture: ${id}`);
  },
  has: (id) => id.startsWith('findings.'),
  below: () => [],
};
