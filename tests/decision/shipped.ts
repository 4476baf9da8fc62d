import { readdirSync, readFileSync } from 'node:fs';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { readCase } from '../../src/casebook/read-case.ts';
import { contextOf, type DecisionContext, type StudioPractice } from '../../src/decision/context.ts';
import { type Decision, decide } from '../../src/decision/decide.ts';
import { defaultStudio } from '../../src/estimates/price.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { printProblems } from '../../src/problems/print.ts';
import { type Knowledge, readKnowledge } from '../../src/rulebook/knowledge.ts';

const ROOT = new URL('../../', import.meta.url);
const CASES = new URL('cases/', ROOT);

/** The text of one file of the shipped rules folder. */
export const ruleText = (name: string): string => readFileSync(new URL(`rules/${name}`, ROOT), 'utf8');

/** The shipped knowledge, each file first passed through `change`. */
export const knowledgeWith = (change: (text: string, name: string) => string): Knowledge =>
  readKnowledge((name) => ({ file: `rules/${name}`, text: change(ruleText(name), name) }));

export const shipped: Knowledge = knowledgeWith((text) => text);

export const practice: StudioPractice = {
  washing: 'museum',
  settings: defaultStudio(shipped.figures),
};

/** Every rule of the shipped book is in force on this day. */
export const AS_OF = '2026-11-27';

/** The shipped rules as a new studio has them. */
export const context: DecisionContext = contextOf({ knowledge: shipped, practice }, AS_OF);

const readFinding = findingReader(shipped.vocabulary);

/** Reads a case as the program does; fails with everything wrong in it, warnings included. */
export function caseOf(file: string, text: string): QuiltCase {
  const reading = readCase(file, text, readFinding);
  if (reading.case === undefined || reading.problems.length > 0)
    throw new Error(printProblems(reading.problems));
  return reading.case;
}

/**
 * A case written as an object; JSON is YAML, so it goes through the same reading as any file. Cases drawn at random
 * are odd by nature: their warnings are nobody's business.
 */
export function caseFrom(written: Readonly<Record<string, unknown>>): QuiltCase {
  const reading = readCase('random.yaml', JSON.stringify(written, null, 1), readFinding);
  if (reading.case === undefined) throw new Error(printProblems(reading.problems));
  return reading.case;
}

export const CASE_FILES: readonly string[] = readdirSync(CASES)
  .filter((name) => name.endsWith('.yaml'))
  .sort();

export const caseText = (file: string): string => readFileSync(new URL(file, CASES), 'utf8');

export const shippedCase = (file: string): QuiltCase => caseOf(`cases/${file}`, caseText(file));

const decisions = new Map<string, Promise<Decision>>();

/** A shipped case as the shipped rules decide it: once for all tests of a thread, whichever asks first. */
export function decidedOn(file: string): Promise<Decision> {
  const made = decisions.get(file) ?? decide(shippedCase(file), context);
  decisions.set(file, made);
  return made;
}
