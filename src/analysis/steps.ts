import type { Kind } from '../findings/vocabulary.ts';
import type { Subject } from '../rulebook/subjects.ts';

/** The smallest change to a value that a practitioner would notice in a rule: what mutants shift by, and how near a case must come to a threshold. */
const STEPS: Readonly<Record<Kind, (threshold: number) => number>> = {
  grade: () => 1,
  choice: () => 1,
  'yes/no': () => 1,
  count: () => 1,
  fraction: () => 0.01,
  // Years of the calendar and other large figures go one by one; small multiples by tenths.
  number: (threshold) => (Math.abs(threshold) >= 10 ? 1 : 0.1),
  length: (threshold) => (threshold < 1 ? 1 / 16 : 1 / 4),
  area: () => 1,
  weight: () => 0.1,
  money: () => 1,
  years: () => 0.1,
};

export const stepOf = (subject: Subject, threshold: number): number => STEPS[subject.value](threshold);
