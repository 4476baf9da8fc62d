import { existsSync, realpathSync } from 'node:fs';
import { join } from 'node:path';
import { input } from '@inquirer/prompts';
import { ProblemError } from '../../../problems/problem.ts';
import { readDate } from '../../../quantities/date.ts';
import {
  KNOWLEDGE_FILES,
  RULE_FILES,
  readKnowledgeFiles,
  type TextFile,
} from '../../../rulebook/knowledge.ts';
import type { Rule, RuleGroup } from '../../../rulebook/model.ts';
import { readYaml } from '../../../source/read-yaml.ts';
import type { Source } from '../../../source/source.ts';
import { suggest } from '../../../source/suggest.ts';
import { loadText } from '../../../store/load-text.ts';
import { saveText } from '../../../store/save-text.ts';
import { relativeName, shippedFolder } from '../../../store/studio.ts';
import type { Terminal } from '../../../store/terminal.ts';
import { type Typed, textOption } from '../../command.ts';

export const fileOf = (group: RuleGroup): string =>
  RULE_FILES.find((each) => each.group === group)?.name ?? 'units.yaml';

/**
 * Rewrites one rule file. Before anything is written the whole rulebook is read with the new text in its place: a
 * change that would leave it with a fault is refused with that fault, and the file stays as it was.
 */
export async function rewrite(
  rulesFolder: string,
  name: string,
  change: (source: Source) => string,
  terminal: Terminal,
): Promise<void> {
  refuseShipped(rulesFolder);
  const path = join(rulesFolder, name);
  const file = relativeName(path);
  const old = await loadText(path);
  const read = readYaml(file, old);
  if ('problems' in read) throw new ProblemError(read.problems);
  const text = change(read.source);
  const files: TextFile[] = [];
  for (const each of KNOWLEDGE_FILES) {
    const own = join(rulesFolder, each);
    files.push({ file: relativeName(own), text: each === name ? text : await loadText(own) });
  }
  readKnowledgeFiles(files);
  await saveText(path, text, { expected: old, stamp: terminal.stamp() });
}

/** The rules that came with the program are everybody's: a studio changes its own. */
export function refuseShipped(rulesFolder: string): void {
  const real = (folder: string): string => (existsSync(folder) ? realpathSync(folder) : folder);
  if (real(rulesFolder) !== real(join(shippedFolder(), 'rules'))) return;
  throw new ProblemError([
    {
      code: 'shipped-rules',
      severity: 'error',
      what: `${relativeName(rulesFolder)} holds the rules that came with the program, and those are never rewritten`,
    },
  ]);
}

/** What was typed for an option, or asked for at a terminal; off one, an error that names it. */
export async function wanted(
  typed: Typed,
  terminal: Terminal,
  name: string,
  question: string,
): Promise<string> {
  const given = textOption(typed, name)?.trim();
  if (given !== undefined && given !== '') return given;
  if (!terminal.canAsk) {
    throw new ProblemError([
      {
        code: 'needs-terminal',
        severity: 'error',
        what: `--${name} is missing`,
        cure: `Add --${name}: ${question.charAt(0).toLowerCase()}${question.slice(1)}`,
      },
    ]);
  }
  const answer = await input(
    { message: question, validate: (text) => text.trim() !== '' || 'This cannot be left out.' },
    { output: process.stderr },
  );
  return answer.trim();
}

/** The day a change holds from. */
export function dayOf(typed: Typed, terminal: Terminal): string {
  const given = textOption(typed, 'on');
  if (given === undefined) return terminal.today();
  if (readDate(given) !== undefined) return given;
  throw new ProblemError([
    { code: 'bad-date', severity: 'error', what: `--on is "${given}", which is not a date` },
  ]);
}

/** A value typed as YAML: `20 %`, `[display, storage]`, `{ all: […] }`. */
export function typedValue(name: string, text: string): unknown {
  const read = readYaml(`--${name}`, text);
  if ('problems' in read) throw new ProblemError(read.problems);
  return read.source.value;
}

/** The rule of that name, or an error with the nearest name. */
export function namedRule(rules: readonly Rule[], name: string): Rule {
  const found = rules.find(({ id }) => id === name);
  if (found !== undefined) return found;
  const near = suggest(
    name,
    rules.map(({ id }) => id),
  );
  throw new ProblemError([
    {
      code: 'unknown-rule',
      severity: 'error',
      what: `there is no rule "${name}"`,
      cure: '"mendwise rules show" lists them all.',
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  ]);
}
