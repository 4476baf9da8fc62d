// `npm run --silent skeleton -- RULE`: prints the smallest case of which a rule is true.
import { namedRule } from '../../../src/cli/commands/rules/rule-file.ts';
import { openStudio } from '../../../src/store/studio.ts';
import { runTool } from '../studies.ts';
import { skeletonOf } from './skeleton.ts';

runTool(async () => {
  const studio = await openStudio({ rules: 'rules' });
  const written = skeletonOf(namedRule(studio.knowledge.rulebook.rules, process.argv[2] ?? ''), studio);
  if (!written.reached)
    console.error('The rule could not be made true by a case alone; the file says what it asks for.');
  process.stdout.write(written.text);
  process.exitCode = written.reached ? 0 : 1;
});
