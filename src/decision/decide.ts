import type { QuiltCase } from '../casebook/model.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import { type Decision, decideBy } from './decide-by.ts';
import type { StudioPractice } from './prepare.ts';
import { recordVerdicts } from './record-verdicts.ts';

export type { Decision } from './decide-by.ts';

/** The decision of record on a case, judged by the engine. Same input, same bytes. */
export const decide = (
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
  asOf: string,
): Promise<Decision> => decideBy(recordVerdicts, quiltCase, knowledge, studio, asOf);
