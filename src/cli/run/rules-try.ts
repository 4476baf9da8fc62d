import { resolve } from 'node:path';
import { changedRules, compareBooks, type TriedCase } from '../../analysis/compare.ts';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import { ProblemError } from '../../problems/problem.ts';
import { allCasePlaces, type CasePlace, readPlace } from '../all-cases.ts';
import { type Action, studioOptions, textOption } from '../command.ts';
import { printTried } from '../print/tried.ts';
import { loadKnowledge, openStudio, relativeName } from '../studio.ts';
import { asOf } from './decide.ts';

export const action: Action = async (typed, terminal) => {
  const folder = textOption(typed, 'with');
  if (folder === undefined) {
    throw new ProblemError([
      {
        code: 'usage',
        severity: 'error',
        what: 'rules try needs the rules to try',
        cure: 'Add --with and the folder, such as --with rules-next; copy the rules there and change the copy.',
      },
    ]);
  }
  const studio = await openStudio(studioOptions(typed));
  const candidate = await loadKnowledge(resolve(folder));
  const day = asOf(typed, terminal);
  const tried: TriedCase[] = [];
  for (const place of await allCasePlaces(studio)) {
    tried.push({
      name: relativeName(place.path).replace(/^.*[/\\]|\.ya?ml$/gi, ''),
      file: relativeName(place.path),
      from: place.from,
      practice: place.practice,
      current: await readOrSay(place, studio.knowledge.vocabulary),
      candidate: await readOrSay(place, candidate.vocabulary),
    });
  }
  const changes = compareBooks(tried, studio.knowledge, candidate, day);
  const rules = changedRules(studio.knowledge.rulebook.rules, candidate.rulebook.rules);
  if (typed.options.json === true) {
    terminal.out(JSON.stringify({ as_of: day, cases: tried.length, rules_changed: rules, changes }, null, 2));
  } else {
    const style = { color: terminal.color, width: terminal.width };
    terminal.out(printTried(changes, rules, tried.length, style));
  }
  return changes.length > 0 ? 1 : 0;
};

async function readOrSay(place: CasePlace, vocabulary: Vocabulary): Promise<TriedCase['current']> {
  const read = await readPlace(place, vocabulary);
  if ('quiltCase' in read) return read.quiltCase;
  const [first] = read.problems.filter(({ severity }) => severity === 'error');
  return { error: first === undefined ? 'does not read' : `does not read: ${first.what}` };
}
