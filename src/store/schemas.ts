import { existsSync } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { STUDIO_SCHEMA } from '../casebook/read-studio.ts';
import { caseSchema } from '../casebook/schema.ts';
import { figuresSchema } from '../figures/read-figures.ts';
import { vocabularyFile } from '../findings/check-vocabulary.ts';
import { findingReader } from '../findings/read-answer.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import { rulesSchema } from '../rulebook/rule-schema.ts';
import { loadText } from './load-text.ts';
import { saveText } from './save-text.ts';

/** Where the schemas stand beside the rules. */
export const SCHEMA_FOLDER = 'schema';

/** JSON Schemas for editors, by file name, made from the same zod checks that read the files. */
export function editorSchemas(knowledge: Knowledge): ReadonlyMap<string, string> {
  const schemas: readonly (readonly [string, string, z.ZodType])[] = [
    ['rules.json', 'Rules of a stage', rulesSchema(knowledge.subjects, 'stages')],
    ['units.json', 'What is done with each unit', rulesSchema(knowledge.subjects, 'units')],
    ['findings.json', 'What can be found out about a quilt', vocabularyFile],
    ['figures.json', 'Figures of judgement', figuresSchema],
    ['studio.json', 'A studio’s settings', STUDIO_SCHEMA],
    ['case.json', 'A case', caseSchema(findingReader(knowledge.vocabulary))],
  ];
  return new Map(
    schemas.map(([name, title, schema]) => {
      const made = z.toJSONSchema(schema, {
        io: 'input',
        target: 'draft-7',
        unrepresentable: 'any',
        reused: 'ref',
      });
      return [name, `${JSON.stringify({ title, ...made }, null, 2)}\n`];
    }),
  );
}

/** Writes the schemas into the folder beside the rules; returns how many were not right already. */
export async function writeSchemas(folder: string, knowledge: Knowledge): Promise<number> {
  await mkdir(folder, { recursive: true });
  let written = 0;
  for (const [name, text] of editorSchemas(knowledge)) {
    const path = join(folder, name);
    const old = existsSync(path) ? await loadText(path) : undefined;
    if (old === text) continue;
    // Made from the rules and made again at any time: an old one is not worth keeping.
    await rm(path, { force: true });
    await saveText(path, text);
    written += 1;
  }
  return written;
}
