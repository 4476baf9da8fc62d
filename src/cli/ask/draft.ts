import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { stringify } from 'yaml';
import { loadText } from '../../casebook/load-text.ts';
import { dropDraft, saveDraft } from '../../casebook/save-draft.ts';
import { ProblemError } from '../../problems/problem.ts';
import { readYaml } from '../../source/read-yaml.ts';
import { DRAFT_ENDING } from '../case-files.ts';
import { relativeName } from '../studio.ts';
import { type Answers, isGroup } from './answers.ts';

/**
 * What an interview has gathered so far, on disk. It stands beside the case and not in it, because a case is not
 * readable before its name, its size and how it was seen are known; because a half-told survey would change every
 * decision made meanwhile without saying so; and because each of some sixty answers would leave a former version of
 * the case in .history. The case is written once, whole, when the interview ends.
 */
export interface Draft {
  readonly path: string;
  /** What was said before; nothing where there was no draft. */
  readonly said: Answers;
  readonly resumed: boolean;
  save(said: Answers): Promise<void>;
  drop(): Promise<void>;
}

export async function openDraft(casesFolder: string, name: string): Promise<Draft> {
  const path = join(casesFolder, `${name}${DRAFT_ENDING}`);
  const resumed = existsSync(path);
  let last = resumed ? await loadText(path) : undefined;
  return {
    path,
    said: last === undefined ? {} : readDraft(path, last),
    resumed,
    save: async (said) => {
      const text = draftText(name, said);
      await saveDraft(path, text, last);
      last = text;
    },
    drop: () => dropDraft(path),
  };
}

const draftText = (name: string, said: Answers): string =>
  `# Answers of an interview on ${name} that is not finished. It goes on where it stopped when it is started again.\n${stringify(said)}`;

function readDraft(path: string, text: string): Answers {
  const read = readYaml(relativeName(path), text);
  if ('problems' in read) throw new ProblemError(read.problems);
  const said = plainData(read.source.value);
  return isGroup(said) ? said : {};
}

/** Data with ordinary groups, as the answers are kept. */
export const plainData = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(plainData);
  if (!isGroup(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, plainData(inner)]));
};
