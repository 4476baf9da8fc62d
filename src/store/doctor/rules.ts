import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join, relative, resolve } from 'node:path';
import { readStudio } from '../../casebook/read-studio.ts';
import { ProblemError } from '../../problems/problem.ts';
import { KNOWLEDGE_FILES } from '../../rulebook/knowledge.ts';
import { suggest } from '../../source/suggest.ts';
import { studioTexts } from '../document-input.ts';
import { loadText } from '../load-text.ts';
import { loadKnowledge, relativeName, shippedFolder } from '../studio.ts';
import type { Examination, Found } from './fault.ts';

/** Beside the files every decision reads. */
const OTHERS = ['texts.yaml'];

/** Files of rules that are missing, that nobody reads, or that do not read. */
export const rules: Examination = async ({ rulesFolder }) => {
  const missing = KNOWLEDGE_FILES.filter((name) => !existsSync(join(rulesFolder, name)));
  const found = [...missing.map((name) => lacking(rulesFolder, name)), ...(await unread(rulesFolder))];
  // Rules with a file missing do not read, and that is told already.
  return missing.length > 0 ? found : [...found, ...(await faulty(rulesFolder))];
};

function lacking(rulesFolder: string, name: string): Found {
  const from = join(shippedFolder(), 'rules', name);
  const same = resolve(from) === resolve(rulesFolder, name);
  return {
    kind: 'missing-rules',
    severity: 'fault',
    file: relativeName(join(rulesFolder, name)),
    what: 'this file of rules is missing, and nothing can be decided without it',
    cure: same ? 'Install mendwise again.' : `Bring it back from a backup, or copy the shipped one: ${from}`,
  };
}

async function unread(rulesFolder: string): Promise<Found[]> {
  const all = await readdir(rulesFolder, { recursive: true }).catch(() => []);
  const known = [...KNOWLEDGE_FILES, ...OTHERS];
  return all
    .map((path) => relative('', path).replaceAll('\\', '/'))
    .filter((name) => /\.ya?ml$/i.test(name) && !known.includes(name) && !/(^|\/)\./.test(name))
    .sort()
    .map((name) => {
      const near = suggest(name, known);
      return {
        kind: 'extra-rules',
        severity: 'fault',
        file: relativeName(join(rulesFolder, name)),
        what: `nothing reads this file${near === undefined ? '' : `; was ${near} meant?`}`,
        cure: 'Move its rules into the file of their stage, or take it out of the folder.',
      };
    });
}

/** What is wrong in rules, and in the words of papers. */
async function faulty(rulesFolder: string): Promise<Found[]> {
  const inRules = await faultsOf(() => loadKnowledge(rulesFolder), rulesFolder);
  const inTexts = await faultsOf(() => studioTexts(rulesFolder), rulesFolder);
  const told = (cure: string) => (fault: Omit<Found, 'cure'>) => ({ ...fault, cure });
  return [
    ...inRules.map(told('Run "mendwise rules check" to see the line and how to mend it.')),
    ...inTexts.map(told('Mend it there; "mendwise sheet" shows the line and how.')),
  ];
}

async function faultsOf(read: () => Promise<unknown>, rulesFolder: string): Promise<Omit<Found, 'cure'>[]> {
  try {
    await read();
    return [];
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    return error.problems
      .filter(({ severity }) => severity === 'error')
      .map(({ what, place }) => ({
        kind: 'unreadable-rules',
        severity: 'fault',
        file: place?.file ?? relativeName(rulesFolder),
        what: `${place === undefined ? '' : `line ${place.line}: `}${what}`,
      }));
  }
}

/** The studio's settings, where there are any. */
export const settings: Examination = async ({ folder }) => {
  const path = join(folder, 'studio.yaml');
  if (!existsSync(path)) return [];
  const problems = await loadText(path).then(
    (text) => readStudio(relativeName(path), text).problems,
    (error: unknown) => {
      if (error instanceof ProblemError) return error.problems;
      throw error;
    },
  );
  return problems.map(({ what, place }) => ({
    kind: 'unreadable-settings',
    severity: 'fault',
    file: relativeName(path),
    what: `${place === undefined ? '' : `line ${place.line}: `}${what}`,
    cure: 'Correct the line, or take it out: what is not said has a usual value.',
  }));
};
