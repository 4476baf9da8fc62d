import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, normalize, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { KNOWLEDGE_FILES } from '../../src/rulebook/knowledge.ts';
import { rulesSchema } from '../../src/rulebook/rule-schema.ts';
import { editorSchemas, SCHEMA_FOLDER, writeSchemas } from '../../src/store/schemas.ts';
import { shipped } from '../analysis/book.ts';

/** The schema a file of the rules folder is held against. */
const SCHEMA_OF: readonly { readonly file: RegExp; readonly schema: string }[] = [
  { file: /^stages\/.*\.yaml$/, schema: `../${SCHEMA_FOLDER}/rules.json` },
  { file: /^units\.yaml$/, schema: `${SCHEMA_FOLDER}/units.json` },
  { file: /^findings\.yaml$/, schema: `${SCHEMA_FOLDER}/findings.json` },
  { file: /^figures\.yaml$/, schema: `${SCHEMA_FOLDER}/figures.json` },
];

/** The first line by which common editors find a file's schema. */
const schemaLine = (path: string): string => `# yaml-language-server: $schema=${path}`;

const RULES = fileURLToPath(new URL('../../rules/', import.meta.url));
const text = (name: string): string => readFileSync(resolve(RULES, name), 'utf8');
const knowledge = shipped();

describe('schemas for editors', () => {
  it('are written beside the rules, mended where they are old, and left alone where they are right', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'schemas-'));
    const made = editorSchemas(knowledge);
    expect(await writeSchemas(folder, knowledge)).toBe(made.size);
    expect(readdirSync(folder).sort()).toEqual([...made.keys()].sort());
    writeFileSync(join(folder, 'rules.json'), '{}');
    expect(await writeSchemas(folder, knowledge)).toBe(1);
    expect(readFileSync(join(folder, 'rules.json'), 'utf8')).toBe(made.get('rules.json'));
    expect(await writeSchemas(folder, knowledge)).toBe(0);
    rmSync(folder, { recursive: true });
  });

  it.each(KNOWLEDGE_FILES)('are named in the first line of %s, by a path that leads there', (name) => {
    const entry = SCHEMA_OF.find(({ file }) => file.test(name));
    if (entry === undefined) throw new Error(`no schema for ${name}`);
    expect(text(name).split('\n')[0]).toBe(schemaLine(entry.schema));
    const made = editorSchemas(knowledge).get(basename(entry.schema));
    expect(made).toContain('"$schema"');
    expect(normalize(join(dirname(name), dirname(entry.schema)))).toBe(SCHEMA_FOLDER);
  });

  it('accept every shipped rule and refuse a misspelt one', () => {
    for (const name of KNOWLEDGE_FILES.filter((file) => file.startsWith('stages/'))) {
      const result = rulesSchema(knowledge.subjects, 'stages').safeParse(parse(text(name)));
      expect(
        result.success,
        `${name} ${result.success ? '' : z.prettifyError(result.error).slice(0, 400)}`,
      ).toBe(true);
    }
    const wrong = parse(text('stages/extent.yaml').replace('finding: loss', 'finding: los')) as unknown;
    expect(rulesSchema(knowledge.subjects, 'stages').safeParse(wrong).success).toBe(false);
  });
});
