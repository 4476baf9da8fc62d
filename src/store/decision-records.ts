import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { QuiltCase, RecordedDecision, RecordedPractice } from '../casebook/model.ts';
import { readCase } from '../casebook/read-case.ts';
import type { StudioPractice } from '../decision/context.ts';
import { findingReader } from '../findings/read-answer.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { KNOWLEDGE_FILES, type Knowledge } from '../rulebook/knowledge.ts';
import { reasonOf } from './disk.ts';
import { loadText } from './load-text.ts';
import { saveText } from './save-text.ts';
import type { Studio } from './studio.ts';

/** Snapshots that recorded decisions were made from, each kept once, by its digest, beside the case. */
const folderOf = (casePath: string): string => join(dirname(casePath), '.records');
const rulesFile = (casePath: string, digest: string): string =>
  join(folderOf(casePath), `rules-${digest}.json`);
const caseFile = (casePath: string, digest: string): string =>
  join(folderOf(casePath), `case-${digest}.yaml`);

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 16);

/** Keeps the rules and the case as they are now; returns the digest of the case. */
export async function keepSnapshots(casePath: string, caseText: string, studio: Studio): Promise<string> {
  await mkdir(folderOf(casePath), { recursive: true }).catch((error: unknown) => {
    const what = `${folderOf(casePath)} cannot be made: ${reasonOf(error)}`;
    throw new ProblemError([{ code: 'cannot-write', severity: 'error', what }]);
  });
  const texts: Record<string, string> = {};
  for (const name of KNOWLEDGE_FILES) texts[name] = await loadText(join(studio.rulesFolder, name));
  await keepOnce(rulesFile(casePath, studio.knowledge.rulebook.digest), JSON.stringify(texts, null, 1));
  const digest = digestOf(caseText);
  await keepOnce(caseFile(casePath, digest), caseText);
  return digest;
}

/** A name made from a digest says what is in the file: one that is there already is the same. */
async function keepOnce(path: string, text: string): Promise<void> {
  if (!existsSync(path)) await saveText(path, text);
}

/** The case, rules and practice a decision was recorded with. Throws ProblemError `record-lost`. */
export async function recalled(
  casePath: string,
  { findings, rulebook, practice }: RecordedDecision,
): Promise<{ quiltCase: QuiltCase; knowledge: Knowledge; practice: StudioPractice }> {
  if (findings === undefined || rulebook === undefined || practice === undefined) {
    throw lost(casePath, 'has this decision without the rules and findings it was made from');
  }
  const rules = rulesFile(casePath, rulebook);
  const text = await snapshot(rules);
  const knowledge = await knowledgeFrom(text);
  if (knowledge?.rulebook.digest !== rulebook) throw lost(rules, 'was altered');
  const path = caseFile(casePath, findings);
  const caseText = await snapshot(path);
  if (digestOf(caseText) !== findings) throw lost(path, 'was altered');
  // The snapshot's file is named by its digest; the case keeps its own name.
  const reading = readCase(casePath, caseText, findingReader(knowledge.vocabulary));
  if (reading.case === undefined) throw new ProblemError(reading.problems);
  return { quiltCase: reading.case, knowledge, practice: asPractice(practice) };
}

/** The rules kept in a snapshot; undefined where they no longer read, which as they were kept they did. */
async function knowledgeFrom(text: string): Promise<Knowledge | undefined> {
  const { readKnowledge } = await import('../rulebook/knowledge.ts');
  try {
    const texts = JSON.parse(text) as Readonly<Record<string, string>>;
    return readKnowledge((name) => ({ file: name, text: texts[name] ?? '' }));
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof ProblemError) return undefined;
    throw error;
  }
}

async function snapshot(path: string): Promise<string> {
  if (!existsSync(path)) throw lost(path, 'is missing');
  return loadText(path);
}

const lost = (path: string, how: string): ProblemError =>
  new ProblemError([{ code: 'record-lost', severity: 'error', what: `${path} ${how}` } satisfies Problem]);

export const recordedPractice = ({ settings, washing }: StudioPractice): RecordedPractice => ({
  currency: settings.currency,
  rate_per_hour: settings.ratePerHour,
  minimum: settings.minimum,
  rounding: settings.rounding,
  deposit: settings.deposit,
  units: settings.units,
  washing,
});

const asPractice = ({
  washing,
  currency,
  rate_per_hour,
  minimum,
  rounding,
  deposit,
  units,
}: RecordedPractice): StudioPractice => ({
  washing,
  settings: { currency, ratePerHour: rate_per_hour, minimum, rounding, deposit, units },
});
