import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { CaseText } from '../analysis/study.ts';
import type { FindingReader } from '../casebook/fields.ts';
import type { QuiltCase } from '../casebook/model.ts';
import { readCase } from '../casebook/read-case.ts';
import { readStudio } from '../casebook/read-studio.ts';
import { secondSurveyOf } from '../casebook/second-survey.ts';
import type { StudioPractice } from '../decision/context.ts';
import { findingReader } from '../findings/read-answer.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { faultOf, reasonOf } from './disk.ts';
import { loadText } from './load-text.ts';
import { relativeName, type Studio, shippedFolder } from './studio.ts';

/** A case file's place, whose it is, and the practice it is judged by. */
export interface CasePlace {
  readonly path: string;
  readonly from: 'studio' | 'shipped';
  readonly practice: StudioPractice;
}

/** The cases that came with the program. */
const shippedCases = (): string => join(shippedFolder(), 'cases');

/**
 * Every case of the studio and every shipped one, folders inside them included, each file once. A folder with a
 * studio.yaml of its own has its cases judged by the practice written there.
 */
export async function allCasePlaces(studio: Studio): Promise<CasePlace[]> {
  const own = await places(studio.casesFolder, 'studio', studio.practice);
  const shipped = shippedCases();
  if (resolve(shipped) === resolve(studio.casesFolder))
    return own.map((place) => ({ ...place, from: 'shipped' as const }));
  return [...own, ...(await places(shipped, 'shipped', { ...studio.practice, washing: 'museum' }))];
}

async function places(
  folder: string,
  from: 'studio' | 'shipped',
  above: StudioPractice,
): Promise<CasePlace[]> {
  if (!existsSync(folder)) return [];
  const practice = await practiceIn(folder, above);
  const entries = (await readdir(folder, { withFileTypes: true }))
    .filter(({ name }) => !name.startsWith('.'))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  const found: CasePlace[] = [];
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) found.push(...(await places(path, from, practice)));
    else if (isCase(entry.name)) found.push({ path, from, practice });
  }
  return found;
}

const isCase = (name: string): boolean =>
  /\.ya?ml$/i.test(name) &&
  name !== 'studio.yaml' &&
  !name.endsWith(DRAFT_ENDING) &&
  secondSurveyOf(name) === undefined;

async function practiceIn(folder: string, above: StudioPractice): Promise<StudioPractice> {
  const path = join(folder, 'studio.yaml');
  if (!existsSync(path)) return above;
  const { studio, problems } = readStudio(relativeName(path), await loadText(path));
  if (studio === undefined) throw new ProblemError(problems);
  return { ...above, washing: studio.washing ?? above.washing };
}

/** Reads one case; its faults are returned, so that the others still come. */
export function readPlace(
  { path }: CasePlace,
  vocabulary: Vocabulary,
): Promise<{ readonly quiltCase: QuiltCase } | { readonly problems: readonly Problem[] }> {
  return reading(path, findingReader(vocabulary));
}

/** Every readable case; the faults of the others beside them. */
export async function allCases(studio: Studio): Promise<{ texts: CaseText[]; problems: Problem[] }> {
  const texts: CaseText[] = [];
  const problems: Problem[] = [];
  const readers = findingReader(studio.knowledge.vocabulary);
  for (const { path, from, practice } of await allCasePlaces(studio)) {
    const read = await reading(path, readers);
    if ('problems' in read) problems.push(...read.problems);
    else texts.push({ file: relativeName(path), quiltCase: read.quiltCase, from, practice });
  }
  return { texts, problems };
}

/** A case, or what is wrong with it: a file that is none is a fault of that case alone. */
async function reading(
  path: string,
  readers: FindingReader,
): Promise<{ readonly quiltCase: QuiltCase } | { readonly problems: readonly Problem[] }> {
  try {
    const read = readCase(relativeName(path), await loadText(path), readers);
    return read.case === undefined ? { problems: read.problems } : { quiltCase: read.case };
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    return { problems: error.problems };
  }
}

/** What an interview has gathered so far stands beside the case under this ending. */
export const DRAFT_ENDING = '.draft.yaml';

interface CaseFiles {
  /** Paths of case files, by name. */
  readonly cases: readonly string[];
  /** Names of cases with an interview that was broken off. */
  readonly drafts: readonly string[];
}

const nameOf = (file: string): string => file.replace(/\.ya?ml$/i, '');

/** The files of a cases folder. A folder that is not there holds none. */
export async function caseFiles(folder: string): Promise<CaseFiles> {
  const all = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    if (faultOf(error) === 'ENOENT') return [];
    throw new ProblemError([
      { code: 'cannot-read', severity: 'error', what: `${folder} cannot be read: ${reasonOf(error)}` },
    ]);
  });
  const files = all
    .filter((entry) => !entry.isDirectory() && !entry.name.startsWith('.') && /\.ya?ml$/i.test(entry.name))
    .map(({ name }) => name);
  const isDraft = (name: string): boolean => name.endsWith(DRAFT_ENDING);
  const byName = (a: string, b: string): number => (nameOf(a) < nameOf(b) ? -1 : 1);
  return {
    cases: files
      .filter((name) => !isDraft(name) && secondSurveyOf(name) === undefined)
      .sort(byName)
      .map((name) => join(folder, name)),
    drafts: files
      .filter(isDraft)
      .map((name) => name.slice(0, -DRAFT_ENDING.length))
      .sort(),
  };
}
