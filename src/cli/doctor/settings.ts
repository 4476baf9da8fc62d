import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { loadText } from '../../casebook/load-text.ts';
import { readStudio } from '../../casebook/read-studio.ts';
import { ProblemError } from '../../problems/problem.ts';
import { relativeName } from '../studio.ts';
import type { Examination } from './fault.ts';

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
