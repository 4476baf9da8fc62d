import { ProblemError } from '../../problems/problem.ts';
import type { Studio } from '../studio.ts';

/** What is looked over. */
export interface Patient {
  readonly folder: string;
  readonly rulesFolder: string;
  readonly casesFolder: string;
  /** Absent where its rules or settings do not read; what needs them is then not looked at. */
  readonly studio: Studio | undefined;
  readonly asOf: string;
}

/** Something found. Notes are as they may be, and worth knowing; faults are not. */
export interface Found {
  readonly kind: string;
  readonly severity: 'fault' | 'note';
  readonly file: string;
  /** What is wrong, a sentence. */
  readonly what: string;
  /** What to do about it, a sentence. */
  readonly cure: string;
  /** Where setting the file aside is safe and enough. */
  readonly setAside?: true;
}

/** One kind of examination. Adding one is adding a file and a line in cli/commands/doctor.ts. */
export type Examination = (patient: Patient) => Promise<Found[]>;

/** The first thing wrong, in words, whatever was thrown. */
export const faultIn = (error: unknown): string => {
  if (error instanceof ProblemError) return error.problems[0]?.what ?? error.message;
  return error instanceof Error ? error.message : String(error);
};
