import { readFileSync } from 'node:fs';
import { examine, type RulebookModel } from '../../src/analysis/rulebook-model.ts';
import { type Knowledge, readKnowledge } from '../../src/rulebook/knowledge.ts';

const folder = new URL('../../rules/', import.meta.url);
const shippedText = (name: string): string => readFileSync(new URL(name, folder), 'utf8');

/** The shipped rulebook. */
export const shipped = (): Knowledge =>
  readKnowledge((name) => ({ file: `rules/${name}`, text: shippedText(name) }));

/** One small rule in the file's own words. */
export const rule = (id: string, when: string, effects: string, more = ''): string => `
- rule: ${id}
  title: Invented for a test
  when: ${when}
  then: ${effects}
  because: It is invented.
  evidence: assumption
  source: invented for a test
  since: 2026-01-01
${more}`;

/** A book of the rules given, by stage, over the shipped findings and figures; every other stage holds one harmless rule. */
export function bookOf(stages: Readonly<Record<string, readonly string[]>>): Knowledge {
  const harmless = (name: string): string =>
    name === 'units'
      ? rule('gone-is-replaced', '{ all: [{ unit: state, is: missing }] }', '{ action: replace }')
      : rule(`quiet-${name}`, '{ all: [{ finding: weight, more than: 50 lb }] }', `{ ask: Is it ${name}? }`);
  return readKnowledge((file) => {
    const name = file.replace(/^stages\//, '').replace('.yaml', '');
    if (name === 'findings' || name === 'figures') return { file, text: shippedText(file) };
    return { file, text: (stages[name] ?? [harmless(name)]).join('\n') };
  });
}

export const examined = (knowledge: Knowledge, asOf = '2026-12-01'): RulebookModel =>
  examine(knowledge.rulebook, knowledge, asOf);
