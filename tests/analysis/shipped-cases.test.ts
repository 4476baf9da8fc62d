import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { coverage, unreached } from '../../src/analysis/coverage.ts';
import { evaluateCase, type Study, studyOf } from '../../src/analysis/study.ts';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { readCase } from '../../src/casebook/read-case.ts';
import { decide } from '../../src/decision/decide.ts';
import { departures, expectable } from '../../src/decision/expectation.ts';
import { stageRules } from '../../src/decision/precedence.ts';
import { defaultStudio } from '../../src/estimates/price.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { inForce } from '../../src/rulebook/assemble.ts';
import { thresholdCases } from '../tools/thresholds.ts';
import { shipped } from './book.ts';

const AS_OF = '2026-12-01';
const CASES = fileURLToPath(new URL('../../cases/', import.meta.url));
const all = shipped();
const knowledge = { ...all, rulebook: inForce(all.rulebook, AS_OF) };
const reader = findingReader(knowledge.vocabulary);

const study = (file: string, quiltCase: QuiltCase, washing: 'museum' | 'studio'): Study =>
  studyOf(
    { file, quiltCase, from: 'shipped' },
    knowledge,
    { washing, settings: defaultStudio(knowledge.figures) },
    AS_OF,
  );

const studiesIn = (folder: string, washing: 'museum' | 'studio'): Study[] =>
  readdirSync(`${CASES}${folder}`)
    .filter((name) => name.endsWith('.yaml') && name !== 'studio.yaml')
    .sort()
    .map((name) => {
      const read = readCase(name, readFileSync(`${CASES}${folder}/${name}`, 'utf8'), reader);
      if (read.case === undefined)
        throw new Error(`${name}: ${read.problems.map(({ what }) => what).join('; ')}`);
      return study(name, read.case, washing);
    });

const studies = [
  ...studiesIn('', 'museum'),
  ...thresholdCases(knowledge.vocabulary).map((each) => study(each.case, each, 'museum')),
  ...studiesIn('studio-practice', 'studio'),
];
const rules = stageRules(knowledge.rulebook);

describe('the shipped cases', () => {
  it('hold what they expect, on the fast path', () => {
    const failing = studies.flatMap(({ name, expect: wanted, situation }) =>
      departures(wanted ?? {}, evaluateCase(situation, rules, knowledge.subjects)).map(
        ({ what }) => `${name}: ${what}`,
      ),
    );
    expect(failing).toEqual([]);
  });

  it('make every rule and every comparison true and false, and stand on both sides of every mark', () => {
    const missing = unreached(coverage(knowledge.rulebook.rules, studies, knowledge.subjects));
    expect(missing.rules.map(({ rule, never }) => `${rule.id} never ${never}`)).toEqual([]);
    expect(missing.tests.map(({ rule, test, never }) => `${rule.id} ${test.key} never ${never}`)).toEqual([]);
    expect(
      missing.edges.map(({ rule, edge, never }) => `${rule.id} ${edge.test.key} ${edge.mark} ${never}`),
    ).toEqual([]);
  });

  it('are judged alike on the fast path and of record', async () => {
    for (const { quiltCase, practice, situation } of studies.filter((_, index) => index % 12 === 0)) {
      const { answer } = await decide(quiltCase, { knowledge, practice, day: AS_OF });
      const record = expectable(answer);
      const {
        standing,
        treatment,
        provisional,
        refused_uses: uses,
        cited,
        actions,
      } = evaluateCase(situation, rules, knowledge.subjects);
      expect({
        standing,
        treatment,
        provisional,
        uses,
        cited: [...cited].sort(),
        actions: [...actions].sort(),
      }).toEqual({
        standing: record.standing,
        treatment: record.treatment,
        provisional: record.provisional,
        uses: record.refused_uses,
        cited: [...record.cited].sort(),
        actions: [...record.actions].sort(),
      });
    }
  });
});
