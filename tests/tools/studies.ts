import { type CaseText, type Study, studyOf } from '../../src/analysis/study.ts';
import { printProblems } from '../../src/problems/print.ts';
import { ProblemError } from '../../src/problems/problem.ts';
import { inForce } from '../../src/rulebook/assemble.ts';
import type { Knowledge } from '../../src/rulebook/knowledge.ts';
import { allCases } from '../../src/store/case-files.ts';
import { openStudio, type Studio } from '../../src/store/studio.ts';
import { thresholdCases } from './thresholds.ts';

/** The rulebook of this folder as it stands on a day. */
export async function bookOn(day: string): Promise<{ studio: Studio; knowledge: Knowledge }> {
  const studio = await openStudio({ rules: 'rules' });
  return { studio, knowledge: { ...studio.knowledge, rulebook: inForce(studio.knowledge.rulebook, day) } };
}

/** Every case that tests the shipped rules: the worked ones, and those of the table. */
export async function allStudies(studio: Studio, knowledge: Knowledge, day: string): Promise<Study[]> {
  const { texts, problems } = await allCases(studio);
  const faults = problems.filter(({ severity }) => severity === 'error');
  if (faults.length > 0) throw new ProblemError(faults);
  const table = thresholdCases(knowledge.vocabulary).map(
    (quiltCase): CaseText => ({
      file: `tests/thresholds.yaml: ${quiltCase.case}`,
      quiltCase,
      from: 'shipped',
    }),
  );
  return [...texts, ...table].map((text) => studyOf(text, knowledge, studio.practice, day));
}

/** Runs a tool of the workshop; faults of rules and cases are shown as the program shows them. */
export function runTool(work: () => Promise<void>): void {
  work().catch((error: unknown) => {
    process.stderr.write(
      `${error instanceof ProblemError ? printProblems(error.problems) : String(error)}\n`,
    );
    process.exitCode = 2;
  });
}
