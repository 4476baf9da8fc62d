import { readdirSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { editorSchemas, SCHEMA_OF, schemaLine } from '../../src/cli/schemas.ts';
import { KNOWLEDGE_FILES } from '../../src/rulebook/knowledge-files.ts';
import { rulesSchema } from '../../src/rulebook/rule-schema.ts';
import { shipped } from '../analysis/book.ts';

const RULES = fileURLToPath(new URL('../../rules/', import.meta.url));
const text = (name: string): string => readFileSync(resolve(RULES, name), 'utf8');
const knowledge = shipped();

describe('schemas for editors', () => {
  it('in rules/schema are the ones made from the checks: "mendwise rules schema" renews them', () => {
    const made = editorSchemas(knowledge);
    expect(readdirSync(resolve(RULES, 'schema')).sort()).toEqual([...made.keys()].sort());
    for (const [name, schema] of made) expect(text(`schema/${name}`) === schema, name).toBe(true);
  });

  it.each(KNOWLEDGE_FILES)('are named in the first line of %s, by a path that leads there', (name) => {
    const entry = SCHEMA_OF.find(({ file }) => file.test(name));
    if (entry === undefined) throw new Error(`no schema for ${name}`);
    expect(text(name).split('\n')[0]).toBe(schemaLine(entry.schema));
    expect(text(resolve(RULES, dirname(name), entry.schema))).toContain('"$schema"');
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
