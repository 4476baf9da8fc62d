import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { StudioFile } from '../casebook/read-studio.ts';
import type { StudioPractice } from '../decision/context.ts';
import { defaultStudio } from '../estimates/price.ts';
import type { Formatter } from '../experience/format.ts';
import type { Figures } from '../figures/model.ts';
import { ProblemError } from '../problems/problem.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import { loadKnowledge as loadRules } from './load-knowledge.ts';

/** Where to look: options every command takes. */
export interface StudioOptions {
  readonly studio?: string;
  readonly rules?: string;
}

/** A studio's folder, opened: its rules read and checked, its settings over the defaults. */
export interface Studio {
  readonly folder: string;
  readonly rulesFolder: string;
  readonly casesFolder: string;
  readonly file: StudioFile;
  readonly knowledge: Knowledge;
  readonly practice: StudioPractice;
}

/** The folder this program was installed to, where the shipped rules and cases lie. */
export function shippedFolder(): string {
  // Built, this file lies in dist/ or dist/parts/; run from source in src/store/.
  const here = dirname(fileURLToPath(import.meta.url));
  const folders = [resolve(here, '..'), resolve(here, '../..')];
  return folders.find((folder) => existsSync(join(folder, 'rules', 'findings.yaml'))) ?? resolve(here, '..');
}

/** The studio named, or the one in the current folder; where there is none, the shipped rules with the default settings. */
export async function openStudio(options: StudioOptions = {}): Promise<Studio> {
  const folder = resolve(options.studio ?? '.');
  const rulesFolder = findRules(options, folder);
  const file = await studioFile(join(folder, 'studio.yaml'));
  const knowledge = await loadKnowledge(rulesFolder);
  return {
    folder,
    rulesFolder,
    casesFolder: join(folder, 'cases'),
    file,
    knowledge,
    practice: practiceOf(file, knowledge.figures),
  };
}

/** Where the rules of a studio lie, or would lie, whether or not they are all there. */
export function rulesFolderOf(options: StudioOptions, folder: string): string {
  if (options.rules !== undefined) return resolve(options.rules);
  const own = join(folder, 'rules');
  return existsSync(own) || options.studio !== undefined ? own : join(shippedFolder(), 'rules');
}

function findRules(options: StudioOptions, folder: string): string {
  if (options.rules !== undefined) return resolve(options.rules);
  const own = join(folder, 'rules');
  if (existsSync(join(own, 'findings.yaml'))) return own;
  if (options.studio !== undefined) {
    throw new ProblemError([
      {
        code: 'no-such-file',
        severity: 'error',
        what: `${folder} is not a studio folder: it holds no rules/findings.yaml`,
        cure: 'Name the folder that "mendwise start" made, or make one with it.',
      },
    ]);
  }
  return join(shippedFolder(), 'rules');
}

export const loadKnowledge = (rulesFolder: string): Promise<Knowledge> =>
  loadRules(rulesFolder, relativeName);

/** Paths below the current folder are shown short: people copy them from messages. */
export function relativeName(path: string): string {
  const here = `${resolve('.')}/`;
  return path.startsWith(here) ? path.slice(here.length) : path;
}

async function studioFile(path: string): Promise<StudioFile> {
  if (!existsSync(path)) return {};
  const { loadText } = await import('./load-text.ts');
  const { readStudio } = await import('../casebook/read-studio.ts');
  const { studio, problems } = readStudio(relativeName(path), await loadText(path));
  if (studio === undefined) throw new ProblemError(problems);
  return studio;
}

function practiceOf(file: StudioFile, figures: Figures): StudioPractice {
  const usual = defaultStudio(figures);
  return {
    washing: file.washing ?? 'museum',
    settings: {
      currency: file.currency ?? usual.currency,
      ratePerHour: file.rate_per_hour ?? usual.ratePerHour,
      minimum: file.minimum ?? usual.minimum,
      rounding: file.rounding ?? usual.rounding,
      deposit: file.deposit ?? usual.deposit,
      units: file.units ?? usual.units,
    },
  };
}

/** Words and measures as this studio has them. */
export const formatterOf = ({ knowledge, practice }: Studio): Formatter => ({
  vocabulary: knowledge.vocabulary,
  units: practice.settings.units,
  currency: practice.settings.currency,
});

/** A case is named by its file, or by its name in the studio's cases folder. */
export function casePath(name: string, studio: Pick<Studio, 'casesFolder'>): string {
  const asGiven = resolve(name);
  if (existsSync(asGiven) || /[/\\]|\.ya?ml$/.test(name)) return asGiven;
  return join(studio.casesFolder, `${name}.yaml`);
}
