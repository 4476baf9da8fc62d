import type { QuiltCase } from '../../casebook/model.ts';
import { contextOf } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { differences } from '../../decision/expectation.ts';
import { caseFiles } from '../case-files.ts';
import { openCase } from '../open-case.ts';
import type { Studio } from '../studio.ts';
import { relativeName } from '../studio.ts';
import { type Examination, type Found, faultIn } from './fault.ts';

/** Cases whose answer is no longer what they expect. */
export const expectations: Examination = async ({ casesFolder, studio, asOf }) => {
  if (studio === undefined) return [];
  const found: Found[] = [];
  for (const path of (await caseFiles(casesFolder)).cases) {
    // Cases that do not read are told of elsewhere.
    const opened = await openCase(path, studio).catch(() => undefined);
    if (opened?.case.expect === undefined) continue;
    const wrong = await wrongIn(opened.case, studio, asOf);
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

/** What differs from what a case expects; that nothing could be decided is a difference too. */
async function wrongIn(quiltCase: QuiltCase, studio: Studio, asOf: string): Promise<string[]> {
  try {
    const { answer } = await decide(quiltCase, contextOf(studio, asOf));
    return differences(quiltCase.expect ?? {}, answer).map(({ what }) => what);
  } catch (error) {
    return [`nothing could be decided (${faultIn(error)})`];
  }
}
