import { beforeAll, describe, expect, it } from 'vitest';
import { alignRulebooks } from '../../src/analysis/align-rulebooks.ts';
import { compareOn, type TriedCase } from '../../src/analysis/compare.ts';
import { ASPECTS, fingerprint } from '../../src/analysis/prepared.ts';
import type { QuiltCase } from '../../src/casebook/model.ts';
import { readCase } from '../../src/casebook/read-case.ts';
import { evaluateRules } from '../../src/decision/precedence.ts';
import { prepare } from '../../src/decision/prepare.ts';
import { figureSet, isFigureSet } from '../../src/figures/model.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { inForce } from '../../src/rulebook/assemble.ts';
import type { Knowledge } from '../../src/rulebook/knowledge.ts';
import type { Condition, Rule } from '../../src/rulebook/model.ts';
import { openStudio, type Studio } from '../../src/store/studio.ts';
import { generatedCase, textOf } from '../tools/generated-case.ts';

const DAY = '2026-11-27';
let studio: Studio;
let cases: QuiltCase[];

/** Read twice for the two books, so that a plain comparison shares nothing with the one that is tested. */
const invented = (number: number): QuiltCase => {
  const { vocabulary } = studio.knowledge;
  const read = readCase('case', textOf(generatedCase(vocabulary, 7, number)), findingReader(vocabulary));
  if (read.case === undefined) throw new Error(JSON.stringify(read.problems));
  return read.case;
};

beforeAll(async () => {
  studio = await openStudio({ rules: 'rules' });
  cases = Array.from({ length: 24 }, (_, index) => invented(index + 1));
});

const withRules = (change: (rules: readonly Rule[]) => readonly Rule[]): Knowledge => {
  const { knowledge } = studio;
  // Read anew, every rule would be another object.
  const rules = structuredClone(change(knowledge.rulebook.rules)) as Rule[];
  return { ...knowledge, rulebook: { ...knowledge.rulebook, rules } };
};

/** Every number a condition compares with, moved up by a share. */
const raised = (condition: Condition, by: number): Condition => {
  if ('test' in condition) {
    const { operand } = condition.test;
    return typeof operand === 'number' ? { test: { ...condition.test, operand: operand + by } } : condition;
  }
  if ('not' in condition) return { not: raised(condition.not, by) };
  return 'all' in condition
    ? { all: condition.all.map((part) => raised(part, by)) }
    : { any: condition.any.map((part) => raised(part, by)) };
};
const leaves = (condition: Condition): Rule['tests'] =>
  'test' in condition
    ? [condition.test]
    : 'not' in condition
      ? leaves(condition.not)
      : ('all' in condition ? condition.all : condition.any).flatMap(leaves);
const reworded = (rule: Rule, when: Condition): Rule => ({ ...rule, when, tests: leaves(when) });

const raise = (id: string, by: number): Knowledge =>
  withRules((rules) => rules.map((rule) => (rule.id === id ? reworded(rule, raised(rule.when, by)) : rule)));
const unitRule = (): string =>
  studio.knowledge.rulebook.rules.find(({ group }) => group === 'units')?.id ?? '';

const CANDIDATES: Readonly<Record<string, () => Knowledge>> = {
  'one rule of a stage moved': () => raise('no-stitch-into-fragile-cloth', -1),
  'three rules moved': () =>
    withRules((rules) =>
      rules.map((rule) =>
        ['no-stitch-into-fragile-cloth', 'light-loss-stays-closed', 'some-loss-row-by-row'].includes(rule.id)
          ? reworded(rule, raised(rule.when, rule.group === 'extent' ? 0.03 : -1))
          : rule,
      ),
    ),
  'one rule taken away': () =>
    withRules((rules) => rules.filter(({ id }) => id !== 'weak-cloth-sewn-by-hand')),
  'a rule more': () =>
    withRules((rules) =>
      rules.flatMap((rule) =>
        rule.id === 'no-stitch-into-fragile-cloth'
          ? [rule, { ...reworded(rule, raised(rule.when, -2)), id: 'no-stitch-into-worn-cloth' }]
          : [rule],
      ),
    ),
  'a rule of units taken away': () => withRules((rules) => rules.filter(({ id }) => id !== unitRule())),
  'a refused use allowed': () =>
    withRules((rules) => rules.filter(({ effects }) => effects.refuseUse === undefined)),
  'a figure changed': () => {
    const { figures } = studio.knowledge;
    if (!isFigureSet(figures)) throw new Error('figures that cannot be listed');
    const list = figures.list.map((figure) =>
      figure.id.startsWith('hours.')
        ? { ...figure, likely: figure.likely * 2, high: figure.high * 2 }
        : figure,
    );
    return { ...studio.knowledge, figures: figureSet(list, figures.file) };
  },
};

const plainPrint = (quiltCase: QuiltCase, knowledge: Knowledge) => {
  const situation = prepare(structuredClone(quiltCase), { knowledge, practice: studio.practice, day: DAY });
  return fingerprint(situation, knowledge, evaluateRules(situation));
};

/** Changed rules without whose change the case comes out otherwise than by the candidate, each tried from the start. */
const plainCauses = (
  quiltCase: QuiltCase,
  { after, changed }: ReturnType<typeof alignRulebooks>,
): string[] => {
  const is = JSON.stringify(plainPrint(quiltCase, after));
  return changed
    .filter(({ putBack }) => JSON.stringify(plainPrint(quiltCase, putBack)) !== is)
    .map(({ id }) => id);
};

/** The comparison as it would be without sparing any work: both books over the case from the start. */
const plainly = (quiltCase: QuiltCase, candidate: Knowledge) => {
  const [was, is] = [studio.knowledge, candidate].map((knowledge) => {
    const book = { ...knowledge, rulebook: inForce(knowledge.rulebook, DAY) };
    return plainPrint(quiltCase, book);
  });
  return ASPECTS.filter((of) => was?.[of] !== is?.[of]).map((of) => ({ of, from: was?.[of], to: is?.[of] }));
};

describe('two books over one case', () => {
  it.each(Object.keys(CANDIDATES))(
    'find what a comparison from the start would find: %s',
    (name) => {
      const candidate = CANDIDATES[name]?.() ?? studio.knowledge;
      const books = alignRulebooks(studio.knowledge, candidate, DAY);
      let changed = 0;
      for (const quiltCase of cases) {
        const tried: TriedCase = {
          name: 'case',
          file: '',
          from: 'studio',
          current: quiltCase,
          candidate: quiltCase,
          practice: studio.practice,
        };
        const found = compareOn(tried, books, DAY);
        expect(found?.changes ?? []).toEqual(plainly(quiltCase, candidate));
        if (found === undefined) continue;
        changed += 1;
        const causes = plainCauses(quiltCase, books);
        if (causes.length > 0) expect(found.because).toEqual(causes);
        else if (books.changed.length > 0) expect(found.because).toEqual(['several rules together']);
        if (books.changed.length === 0) expect(found.because).toEqual(['figures or findings']);
      }
      expect(changed).toBeGreaterThan(0);
    },
    180_000,
  );

  it('say nothing where a rule was only written in another place', () => {
    const moved = withRules((rules) =>
      rules.map((rule) => ({ ...rule, place: { ...rule.place, line: rule.place.line + 9 } })),
    );
    expect(alignRulebooks(studio.knowledge, moved, DAY).changed).toEqual([]);
  });
});
