import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isMap, isSeq, parseDocument, visit } from 'yaml';
import { readCase } from '../../src/casebook/read-case.ts';
import { readStudio } from '../../src/casebook/read-studio.ts';
import { readTexts } from '../../src/documents/read-texts.ts';
import { readFigures } from '../../src/figures/read-figures.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { readVocabulary } from '../../src/findings/read-vocabulary.ts';
import { type Problem, ProblemError } from '../../src/problems/problem.ts';
import { readKnowledge } from '../../src/rulebook/knowledge.ts';
import { readRules } from '../../src/rulebook/read-rules.ts';
import { readYaml } from '../../src/source/read-yaml.ts';
import type { Source } from '../../src/source/source.ts';
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

const everyNth = (paths: Path[], most: number): Path[] =>
  paths.filter((_, index) => index % Math.ceil(paths.length / most) === 0);

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

/** The whole folder of rules with one file changed: slow, so a few places are enough. */
const together =
  (name: string) =>
  (text: string): readonly Problem[] => {
    readKnowledge((file) => ({ file: `rules/${file}`, text: file === name ? text : ruleText(file) }));
    return [];
  };
/** The same file alone, read by what reads it. */
const alone =
  (name: string, read: (source: Source) => { problems: readonly Problem[] }) =>
  (text: string): readonly Problem[] => {
    const source = readYaml(`rules/${name}`, text);
    return 'problems' in source ? source.problems : read(source.source).problems;
  };
const vocabularyAlone = (text: string): readonly Problem[] => {
  readVocabulary('rules/findings.yaml', text);
  return [];
};
const file = (path: string): string => readFileSync(path, 'utf8');

const FILES: readonly [string, string, (text: string) => readonly Problem[], most: number][] = [
  ...['cases/bindweed-ninepatch.yaml', 'cases/comforter-from-the-barn.yaml', 'cases/orchard-ladder.yaml'].map(
    (path): (typeof FILES)[number] => [path, file(path), (text) => readCase(path, text, reader).problems, 40],
  ),
  [
    'studio.yaml',
    'studio: Name\ncontact: a\nlogo: x.png\nlanguage: en-US\nunits: inches\ncurrency: USD\nrate_per_hour: 40\nminimum: 100\nrounding: 10\ndeposit: 0.5\nwashing: museum\nvalid_days: 30\n',
    (text) => readStudio('studio.yaml', text).problems,
    400,
  ],
  ['rules/texts.yaml', ruleText('texts.yaml'), (text) => readTexts('texts.yaml', text).problems, 10],
  ['rules/findings.yaml', ruleText('findings.yaml'), vocabularyAlone, 4],
  ['rules/figures.yaml', ruleText('figures.yaml'), alone('figures.yaml', readFigures), 4],
  [
    'rules/units.yaml',
    ruleText('units.yaml'),
    alone('units.yaml', (source) => readRules(source, 'units', shipped.subjects)),
    10,
  ],
  [
    'rules/stages/stop.yaml',
    ruleText('stages/stop.yaml'),
    alone('stages/stop.yaml', (source) => readRules(source, 'stop', shipped.subjects)),
    10,
  ],
];

/** Every fault of the program, or problem without a place, that a wrong value at one of the places brings. */
function faultsIn(
  text: string,
  paths: readonly Path[],
  read: (text: string) => readonly Problem[],
): string[] {
  const faults: string[] = [];
  for (const path of paths)
    for (const [what, value] of Object.entries(WRONG)) {
      const changed = parseDocument(text);
      changed.setIn(path, changed.createNode(value));
      const where = `${path.join('.')} as ${what}`;
      try {
        for (const { place, code } of problemsBy(() => read(changed.toString())))
          if (place === undefined || code === 'internal') faults.push(`${where}: ${code} without a place`);
      } catch (error) {
        faults.push(`${where}: ${error instanceof Error ? error.message : String(error)}`);
      }
    }
  return faults;
}

describe('something else at any place of a file that may be edited', () => {
  it.each(FILES)(
    '%s: an error with its place, or nothing to say, and never a fault',
    (name, text, read, most) => {
      const all = leavesOf(text);
      const faults = faultsIn(text, everyNth(all, FULL ? 15 * most : most), read);
      expect(all.length).toBeGreaterThan(0);
      expect(faults.slice(0, 20), `${name}: ${faults.length} faults`).toEqual([]);
    },
  );

  it.each(['findings.yaml', 'figures.yaml', 'units.yaml', 'stages/stop.yaml'])(
    '%s, read together with all that rests on it',
    (name) => {
      const text = ruleText(name);
      const faults = faultsIn(text, everyNth(leavesOf(text), FULL ? 10 : 1), together(name));
      expect(faults.slice(0, 20), `${name}: ${faults.length} faults`).toEqual([]);
    },
  );

  it('is seen where a reader stumbles', () => {
    const stumbles = (text: string): readonly Problem[] => {
      if (text.includes('null')) throw new TypeError('Cannot convert object to primitive value');
      return [];
    };
    expect(faultsIn('a: 1\n', [['a']], stumbles)).toEqual([
      'a as nothing: Cannot convert object to primitive value',
    ]);
  });
});
