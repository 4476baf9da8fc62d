import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { KNOWLEDGE_FILES, readKnowledgeFiles, type TextFile } from '../../src/rulebook/knowledge.ts';
import { findKnowledge, type KeptKnowledge, keepKnowledge } from '../../src/rulebook/serialize.ts';
import { deserialize, serialize } from '../../src/store/cache.ts';
import { keyOf } from '../../src/store/load-knowledge.ts';

const root = new URL('../..', import.meta.url).pathname;
const filesUnder = (folder: string): TextFile[] =>
  KNOWLEDGE_FILES.map((name) => ({
    file: `${folder}${name}`,
    text: readFileSync(`${root}rules/${name}`, 'utf8'),
  }));

describe('rules kept for the next start', () => {
  const files = filesUnder('rules/');
  const fresh = readKnowledgeFiles(files);
  const key = keyOf(files, 'this build');
  const text = serialize(key, keepKnowledge(fresh, files));
  const kept = deserialize<KeptKnowledge>(text, key);
  const found = kept && findKnowledge(kept, files);

  it('are the rules that were read, places included', () => {
    expect(found?.rulebook).toEqual(fresh.rulebook);
    expect(found?.vocabulary).toEqual(fresh.vocabulary);
    for (const { id } of kept?.figures ?? [])
      expect(found?.figures.figure(id)).toEqual(fresh.figures.figure(id));
    expect(kept?.figures.length).toBeGreaterThan(100);
    expect(() => found?.figures.figure('hours.tye')).toThrow(/rules\/figures\.yaml has no figure hours\.tye/);
  });

  it('keep one object for a test, in the condition and in the list', () => {
    const rule = found?.rulebook.rules.find(
      ({ when }) => 'all' in when && when.all.some((part) => 'test' in part),
    );
    const leaf = rule && 'all' in rule.when ? rule.when.all.find((part) => 'test' in part) : undefined;
    expect(leaf && 'test' in leaf && rule?.tests.includes(leaf.test)).toBe(true);
  });

  it('go by the name their files have now', () => {
    const moved = filesUnder('elsewhere/rules/');
    expect(kept && findKnowledge(kept, moved).rulebook.rules).toEqual(
      readKnowledgeFiles(moved).rulebook.rules,
    );
  });

  it.each([
    ['a letter changed', text.replace('"rules":[', '"rules":[ ')],
    ['the end cut off', text.slice(0, -1)],
    ['nothing', ''],
    ['no line break', 'x'.repeat(100)],
  ])('are not used with %s', (_, spoilt) => {
    expect(spoilt).not.toBe(text);
    expect(deserialize<KeptKnowledge>(spoilt, key)).toBeUndefined();
  });

  it('are not used for other texts, or by another build', () => {
    const [first, ...others] = files;
    const edited = [{ file: first?.file ?? '', text: `${first?.text} ` }, ...others];
    expect(deserialize<KeptKnowledge>(text, keyOf(edited, 'this build'))).toBeUndefined();
    expect(deserialize<KeptKnowledge>(text, keyOf(files, 'the next build'))).toBeUndefined();
  });
});
