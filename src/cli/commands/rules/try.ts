import { resolve } from 'node:path';
import { alignRulebooks } from '../../../analysis/align-rulebooks.ts';
import { type CaseChange, compareOn, type TriedCase } from '../../../analysis/compare.ts';
import { printTried } from '../../../documents/terminal/coverage.ts';
import type { Vocabulary } from '../../../findings/vocabulary.ts';
import { ProblemError } from '../../../problems/problem.ts';
import { allCasePlaces, type CasePlace, readPlace } from '../../../store/case-files.ts';
import { loadKnowledge, openStudio, relativeName } from '../../../store/studio.ts';
import { type Action, asOf, studioOptions, type Typed, textOption } from '../../command.ts';

export const action: Action = async (typed, terminal) => {
  const day = asOf(typed, terminal);
  const folder = candidateFolder(typed);
  const studio = await openStudio(studioOptions(typed));
  const books = alignRulebooks(studio.knowledge, await loadKnowledge(folder), day);
  const rules = books.changed.map(({ id }) => id);
  const places = await allCasePlaces(studio);
  const changes: CaseChange[] = [];
  for (const place of places) {
    const tried = await readByBoth(place, books.before.vocabulary, books.after.vocabulary);
    try {
      const change = compareOn(tried, books, day);
      if (change !== undefined) changes.push(change);
    } catch (error) {
      if (error instanceof Error) error.message = `${tried.file}: ${error.message}`;
      throw error;
    }
  }
  if (typed.options.json === true)
    terminal.out(
      JSON.stringify({ as_of: day, cases: places.length, rules_changed: rules, changes }, null, 2),
    );
  else terminal.out(printTried(changes, rules, places.length, terminal));
  return changes.length > 0 ? 1 : 0;
};

/** One case as each book's words read it. */
async function readByBoth(place: CasePlace, was: Vocabulary, is: Vocabulary): Promise<TriedCase> {
  const current = await read(place, was);
  return {
    name: relativeName(place.path).replace(/^.*[/\\]|\.ya?ml$/gi, ''),
    file: relativeName(place.path),
    from: place.from,
    practice: place.practice,
    current,
    candidate: was === is ? current : await read(place, is),
  };
}

async function read(place: CasePlace, vocabulary: Vocabulary): Promise<TriedCase['current']> {
  const found = await readPlace(place, vocabulary);
  if ('quiltCase' in found) return found.quiltCase;
  const first = found.problems.find(({ severity }) => severity === 'error');
  return { error: first === undefined ? 'does not read' : `does not read: ${first.what}` };
}

function candidateFolder(typed: Typed): string {
  const folder = textOption(typed, 'with');
  if (folder !== undefined) return resolve(folder);
  throw new ProblemError([
    {
      code: 'usage',
      severity: 'error',
      what: 'rules try needs the rules to try',
      cure: 'Add --with and the folder, such as --with rules-next; copy the rules there and change the copy.',
    },
  ]);
}
