import type { FindingReader } from '../casebook/finding-reader.ts';
import { oncePer } from '../quantities/once.ts';
import { suggest } from '../source/suggest.ts';
import { readAnswer } from './read-answer.ts';
import type { Vocabulary } from './vocabulary.ts';

/**
 * Reads what stands under `findings` in a case file: findings that have no place of their own elsewhere in it. One for
 * each vocabulary, because the schema of a case is built for its reader and takes longer to build than a case to read.
 */
export const findingReader = oncePer((vocabulary: Vocabulary): FindingReader => {
  const here = [...vocabulary.findings.values()].filter(({ at }) => at === 'survey.findings');
  const names = here.map(({ id }) => id);
  return (id, raw) => {
    const def = vocabulary.findings.get(id) ?? vocabulary.family.get(id) ?? vocabulary.unit.get(id);
    if (def === undefined) {
      const near = suggest(id, names);
      return {
        problem: {
          code: 'unknown-finding',
          what: `there is no finding ${id}`,
          ...(near === undefined ? {} : { didYouMean: near }),
        },
      };
    }
    if (def.at === 'survey.findings') return readAnswer(def, raw);
    const derived = def.at === 'derived';
    return {
      problem: {
        code: 'unknown-key',
        what: derived ? `${id} is worked out, never typed` : `${id} does not stand under findings`,
        cure: derived ? 'Remove the line.' : `Write it as ${def.at.replace('*', '<letter>')}.`,
      },
    };
  };
});
