import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isMap, isSeq, parseDocument, visit } from 'yaml';
import { readCase } from '../../src/casebook/read-case.ts';
import { readStudio } from '../../src/casebook/read-studio.ts';
import { readTexts } from '../../src/documents/texts/read-texts.ts';
import { findingReader } from '../../src/findings/validators.ts';
import { type Problem, ProblemError } from '../../src/problems/problem.ts';
import { readKnowledge } from '../../src/rulebook/knowledge.ts';
import { ruleText, shipped } from '../decision/shipped.ts';
import { FULL } from '../tiers.ts';

/** What may stand where something else is wanted, by a slip of indentation or of the mouse. */
const WRONG: Readonly<Record<string, unknown>> = {
  'an empty map': {},
  'a map': { a: 1 },
  'an empty list': [],
  'a list of maps': [{ a: 1 }],
  nothing: null,
  'a huge text': 'x'.repeat(100_000),
};

type Path = (string | number)[];

/** The place of every value in a file. */
function leavesOf(text: string): Path[] {
  const paths: Path[] = [];
  visit(parseDocument(text), {
    Scalar(key, node, above) {
      if (key === 'key') return;
      const chain = [...above, node];
      const path = chain.slice(0, -1).flatMap((parent, index): Path => {
        const child = chain[index + 1];
        if (isSeq(parent)) return [parent.items.indexOf(child)];
        const name = isMap(parent) && typeof child === 'object' && 'key' in child ? child.key : undefined;
        return name === undefined || name === null ? [] : [String((name as { value: unknown }).value)];
      });
      paths.push(path);
    },
  });
  return paths;
}

/** Every so many places of a file that takes long to read, unless all are wanted. */
const everyNth = (paths: Path[], most: number): Path[] =>
  FULL ? paths : paths.filter((_, index) => index % Math.ceil(paths.length / most) === 0);

const reader = findingReader(shipped.vocabulary);
const problemsBy = (read: () => readonly Problem[]): readonly Problem[] => {
  try {
    return read();
  } catch (error) {
    // Anything but problems is a fault of the program.
    if (error instanceof ProblemError) return error.problems;
    throw error;
  }
};

const rules =
  (name: string) =>
  (text: string): readonly Problem[] => {
    readKnowledge((file) => ({ file: `rules/${file}`, text: file === name ? text : ruleText(file) }));
    return [];
  };
const file = (path: string): string => readFileSync(path, 'utf8');

const FILES: readonly [string, string, (text: string) => readonly Problem[], most: number][] = [
  ...['cases/bindweed-ninepatch.yaml', 'cases/comforter-from-the-barn.yaml', 'cases/orchard-ladder.yaml'].map(
    (path): (typeof FILES)[number] => [
      path,
      file(path),
      (text) => readCase(path, text, reader).problems,
      400,
    ],
  ),
  [
    'studio.yaml',
    'studio: Name\ncontact: a\nlogo: x.png\nlanguage: en-US\nunits: inches\ncurrency: USD\nrate_per_hour: 40\nminimum: 100\nrounding: 10\ndeposit: 0.5\nwashing: museum\nvalid_days: 30\n',
    (text) => readStudio('studio.yaml', text).problems,
    400,
  ],
  ['rules/texts.yaml', ruleText('texts.yaml'), (text) => readTexts('texts.yaml', text).problems, 20],
  ['rules/findings.yaml', ruleText('findings.yaml'), rules('findings.yaml'), 3],
  ['rules/figures.yaml', ruleText('figures.yaml'), rules('figures.yaml'), 3],
  ['rules/units.yaml', ruleText('units.yaml'), rules('units.yaml'), 3],
  ['rules/stages/stop.yaml', ruleText('stages/stop.yaml'), rules('stages/stop.yaml'), 3],
];

describe('something else at any place of a file that may be edited', () => {
  it.each(FILES)(
    '%s: an error with its place, or nothing to say, and never a fault',
    (name, text, read, most) => {
      const paths = everyNth(leavesOf(text), most);
      expect(paths.length).toBeGreaterThan(0);
      const faults: string[] = [];
      for (const path of paths)
        for (const [what, value] of Object.entries(WRONG)) {
          const changed = parseDocument(text);
          changed.setIn(path, changed.createNode(value));
          const where = `${path.join('.')} as ${what}`;
          try {
            const problems = problemsBy(() => read(changed.toString()));
            for (const { place, code } of problems)
              if (place === undefined || code === 'internal')
                faults.push(`${where}: ${code} without a place`);
          } catch (error) {
            faults.push(`${where}: ${error instanceof Error ? error.message : String(error)}`);
          }
        }
      expect(faults.slice(0, 20), `${name}: ${faults.length} faults`).toEqual([]);
    },
  );
});
