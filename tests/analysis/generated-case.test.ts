import { beforeAll, describe, expect, it } from 'vitest';
import { evaluateCase } from '../../src/analysis/study.ts';
import { readCase } from '../../src/casebook/read-case.ts';
import { stageRules } from '../../src/decision/precedence.ts';
import { prepare } from '../../src/decision/prepare.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { pathOf } from '../../src/findings/vocabulary.ts';
import { inForce } from '../../src/rulebook/assemble.ts';
import { openStudio, type Studio } from '../../src/store/studio.ts';
import { generatedCase, textOf } from '../tools/generated-case.ts';
import { at } from '../tools/skeleton/draft.ts';

let studio: Studio;
beforeAll(async () => {
  studio = await openStudio({ rules: 'rules' });
});
const text = (seed: number, number: number): string =>
  textOf(generatedCase(studio.knowledge.vocabulary, seed, number));

describe('a generated case', () => {
  it('is the same for the same seed and number, and another for another', () => {
    expect(text(3, 17)).toBe(text(3, 17));
    const all = new Set([1, 2, 3].flatMap((seed) => [1, 2, 3, 4, 5].map((number) => text(seed, number))));
    expect(all.size).toBe(15);
  });

  it('reads without a fault', () => {
    const readers = findingReader(studio.knowledge.vocabulary);
    for (let number = 1; number <= 400; number += 1) {
      const { problems } = readCase(`case ${number}`, text(1, number), readers);
      expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    }
  });

  it('takes every value a finding may have, and leaves it unknown, in some case or other', () => {
    const drafts = Array.from({ length: 3000 }, (_, index) =>
      generatedCase(studio.knowledge.vocabulary, 1, index + 1),
    );
    const missed = [...studio.knowledge.vocabulary.findings.values()].flatMap((def) => {
      const path = pathOf(def);
      if (path === undefined || def.per !== 'quilt') return [];
      const written = new Set(drafts.map((draft) => at(draft, path)));
      const unknown = def.id === 'seen' || written.has(undefined) ? [] : [`${def.id} unknown`];
      return written.size > def.likely.length || def.id === 'seen' ? unknown : [def.id, ...unknown];
    });
    expect(missed).toEqual([]);
  });

  it('comes out in every standing and with every treatment', () => {
    const { knowledge, practice } = studio;
    const readers = findingReader(knowledge.vocabulary);
    const rulebook = inForce(knowledge.rulebook, '2026-11-25');
    const standings = new Set<string>();
    const treatments = new Set<string>();
    for (let number = 1; number <= 150; number += 1) {
      const quiltCase = readCase('case', text(1, number), readers).case;
      if (quiltCase === undefined) continue;
      const situation = prepare(quiltCase, {
        knowledge: { ...knowledge, rulebook },
        practice,
        day: '2026-11-27',
      });
      const { standing, treatment } = evaluateCase(situation, stageRules(rulebook), knowledge.subjects);
      standings.add(standing);
      treatments.add(treatment ?? 'none');
    }
    expect([...standings].sort()).toEqual(['decline', 'go_ahead', 'not_yet', 'refer']);
    expect([...treatments].sort()).toEqual(['backing', 'leave', 'lines', 'none', 'reassemble', 'tie']);
  }, 120_000);
});
