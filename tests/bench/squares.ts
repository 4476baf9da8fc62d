// An invented quilt of 400 units, another at every run, so that nothing kept from one decision serves the next.
import type { QuiltCase } from '../../src/casebook/model.ts';
import { readCase } from '../../src/casebook/read-case.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import type { Studio } from '../../src/store/studio.ts';

const SIDE = 20;
const grid = (mark: (row: number, column: number) => string): string =>
  Array.from(
    { length: SIDE },
    (_, row) => `    ${Array.from({ length: SIDE }, (__, column) => mark(row, column)).join(' ')}`,
  ).join('\n');

/** An invented quilt of 20 x 20 squares in four fabrics, damaged here and there. */
const textOf = (run: number, history: string): string => `mendwise: 1
case: bench-squares
opened: 2026-03-02
client: { ref: C-001, wish: repair, intended_use: guest_bed, hung: no, wanted_years: 10 }
quilt:
  construction: pieced
  made: { about: ${1850 + run}, sure: guess }
  size: { width: 80 in, height: 80 in }
  layout: { kind: edge to edge, rows: ${SIDE}, columns: ${SIDE}, finished: 4 in x 4 in }
  batting: { kind: loose, fibre: cotton, migrated: 20 % }
  backing: { kind: own, fragility: worn, damaged: 5 % }
  joining: { kind: ties, gap: 8 in, missing: 30 % }
${history}survey:
  seen: in hand
  families:
    A: { name: indigo, fibre: cotton, fragility: worn }
    B: { name: shirting, fibre: cotton, fragility: sound }
    C: { name: brown print, fibre: cotton, fragility: weak, self_destructing: yes }
    D: { name: ticking, fibre: cotton, fragility: unknown }
  units: |
${grid((row, column) => {
  const n = (7 * row + 3 * column) % 41;
  return n === 0 ? 'x' : n === 5 ? 'e' : n === 9 ? 'h' : n === 13 ? 's' : n < 18 ? 'w' : '.';
})}
  family_map: |
${grid((row, column) => 'ABCD'.charAt((row + 2 * column) % 4))}
  joins: { inspected: 760, open: ${61 + (run % 20)}, thread: 48, cloth: ${13 + (run % 20)}, allowance: 0 }
`;

/** How it was used, where somebody knows. */
export const told = (run: number): string =>
  `history:\n  - { use: regular_bed, years: ${5 + run / 4}, washing: hand }\n  - { use: storage, years: 40 }\n`;

export const squares = (run: number, history: string, { knowledge }: Studio): QuiltCase => {
  const { case: quiltCase, problems } = readCase(
    'bench-squares.yaml',
    textOf(run, history),
    findingReader(knowledge.vocabulary),
  );
  if (quiltCase === undefined) throw new Error(JSON.stringify(problems));
  return quiltCase;
};
