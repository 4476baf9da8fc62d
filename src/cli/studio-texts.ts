import { join, resolve } from 'node:path';
import { loadText } from '../casebook/load-text.ts';
import { textsOrThrow } from '../documents/texts/read-texts.ts';
import type { Texts } from '../documents/texts/texts.ts';
import type { Problem } from '../problems/problem.ts';
import { relativeName, shippedFolder } from './studio.ts';

/** The studio's own words; for papers that are newer than its file, the shipped ones. Throws ProblemError with everything wrong in them. */
export async function studioTexts(rulesFolder: string): Promise<{ texts: Texts; warnings: Problem[] }> {
  const path = join(rulesFolder, 'texts.yaml');
  const shippedPath = join(shippedFolder(), 'rules', 'texts.yaml');
  const own = await loadText(path);
  const name = relativeName(path);
  if (resolve(path) === resolve(shippedPath)) return { texts: textsOrThrow(name, own).texts, warnings: [] };
  const shipped = textsOrThrow(relativeName(shippedPath), await loadText(shippedPath)).texts;
  const { texts, missing } = textsOrThrow(name, own, shipped);
  if (missing.length === 0) return { texts, warnings: [] };
  const some = missing.slice(0, SHOWN).join(', ');
  const more = missing.length > SHOWN ? ` and ${missing.length - SHOWN} more` : '';
  return {
    texts,
    warnings: [
      {
        code: 'missing-key',
        severity: 'warning',
        what: `${name} has no words for ${some}${more}`,
        why: 'This program has papers that the file is older than; the words it came with stand in.',
        cure: `Copy them from ${relativeName(shippedPath)}, and make them sound like you.`,
      },
    ],
  };
}

/** Names of texts told at most. */
const SHOWN = 3;
