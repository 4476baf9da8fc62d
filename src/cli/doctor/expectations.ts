import { contextOf } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { differences } from '../../decision/expectation.ts';
import { ProblemError } from '../../problems/problem.ts';
import { caseFiles } from '../case-files.ts';
import { openCase } from '../open-case.ts';
import { relativeName } from '../studio.ts';
import type { Examination, Found } from './fault.ts';

/** Cases whose answer is no longer what they expect. */
export const expectations: Examination = async ({ casesFolder, studio, asOf }) => {
  if (studio === undefined) return [];
  const found: Found[] = [];
  for (const path of (await caseFiles(casesFolder)).cases) {
    const opened = await openCase(path, studio).catch((error: unknown) => {
      // Cases that do not read are told of elsewhere.
      if (error instanceof ProblemError) return undefined;
      throw error;
    });
    if (opened?.case.expect === undefined) continue;
    const { answer } = await decide(opened.case, contextOf(studio, asOf));
    const wrong = differences(opened.case.expect, answer).map(({ what }) => what);
    if (wrong.length === 0) continue;
    found.push({
      kind: 'expectation',
      severity: 'fault',
      file: relativeName(path),
      what: `the answer is not what the case expects: ${wrong.join('; ')}`,
      cure: 'See which rule or figure changed ("mendwise rules show RULE"); then correct the rule, or what is expected.',
    });
  }
  return found;
};
