import type { FindingDef } from '../../findings/vocabulary.ts';
import { findingsSection } from './findings-section.ts';
import { historySection } from './history-section.ts';
import type { Section } from './question.ts';
import { clientSection, quiltSection } from './quilt-section.ts';

/** Groups of the vocabulary that a first message with photos can answer; any other finding a client can know is asked too. */
const FIRST_MESSAGE: ReadonlySet<string> = new Set(['safety', 'wishes', 'worth']);

const canTell = (def: FindingDef): boolean =>
  def.who === 'client' || (def.who === 'photos' && FIRST_MESSAGE.has(def.group));

const inGroup = (group: string) => (def: FindingDef) => def.group === group && canTell(def);

/** Sections asked in full whatever the answer: safety, the size and whose it is. */
export const ENQUIRY_OPENING = 3;

/** Safety first: a quilt that is not safe to handle needs no other question answered. */
export const ENQUIRY: readonly Section[] = [
  findingsSection(inGroup('safety')),
  quiltSection,
  clientSection,
  findingsSection(inGroup('wishes')),
  findingsSection(inGroup('worth')),
  historySection,
  findingsSection(canTell),
];
