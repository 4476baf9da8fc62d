import { type Figure, figureSet, isFigureSet } from '../figures/model.ts';
import type { FindingDef, Vocabulary } from '../findings/vocabulary.ts';
import type { Place } from '../problems/problem.ts';
import { memoize } from '../quantities/memo.ts';
import type { Knowledge, TextFile } from './knowledge.ts';
import type { Condition, Effects, PlanTarget, Rule, Rulebook, Test } from './model.ts';
import { subjectsOfVocabulary } from './subjects.ts';

type Level = readonly FindingDef[];

/** What was read and checked, as JSON can hold it; places are kept as numbers. */
export interface KeptKnowledge {
  readonly vocabulary: Omit<Vocabulary, 'findings' | 'family' | 'unit'> & {
    readonly findings: Level;
    readonly family: Level;
    readonly unit: Level;
  };
  readonly figures: readonly Figure[];
  /** Index of the file the figures stand in. */
  readonly figureFile: number;
  readonly rulebook: Omit<Rulebook, 'rules'> & { readonly rules: readonly KeptRule[] };
}

/** Reading YAML and checking it is the dearest part of a start; what came of it can be kept. */
export function keepKnowledge(knowledge: Knowledge, files: readonly TextFile[]): KeptKnowledge {
  const { vocabulary, figures, rulebook } = knowledge;
  if (!isFigureSet(figures)) throw new Error('these figures cannot be listed');
  const keep = placeKeeper(files);
  return {
    vocabulary: {
      ...vocabulary,
      findings: [...vocabulary.findings.values()],
      family: [...vocabulary.family.values()],
      unit: [...vocabulary.unit.values()],
    },
    figures: figures.list,
    figureFile: files.findIndex(({ file }) => file === figures.file),
    rulebook: { ...rulebook, rules: rulebook.rules.map((rule) => serializeRule(rule, keep)) },
  };
}

/** The same knowledge again; `files` are those it was read from, under the names they go by now. */
export function findKnowledge(kept: KeptKnowledge, files: readonly TextFile[]): Knowledge {
  const find = placeFinder(files);
  const byId = (level: Level): ReadonlyMap<string, FindingDef> => new Map(level.map((def) => [def.id, def]));
  const vocabulary: Vocabulary = {
    ...kept.vocabulary,
    findings: byId(kept.vocabulary.findings),
    family: byId(kept.vocabulary.family),
    unit: byId(kept.vocabulary.unit),
  };
  return {
    vocabulary,
    figures: figureSet(kept.figures, files[kept.figureFile]?.file ?? 'figures.yaml'),
    rulebook: { ...kept.rulebook, rules: kept.rulebook.rules.map((rule) => deserializeRule(rule, find)) },
    subjects: subjectsOfVocabulary(vocabulary),
  };
}

type Kept<T extends { readonly place: Place }> = Omit<T, 'place'> & { readonly place: KeptPlace };
type KeptTest = Kept<Test>;
/** A leaf is the number of a test of its rule. */
type KeptCondition =
  | number
  | { readonly all: readonly KeptCondition[] }
  | { readonly any: readonly KeptCondition[] }
  | { readonly not: KeptCondition };
type KeptTarget = 'this plan' | readonly KeptTest[];

/** A rule as JSON can hold it. */
type KeptRule = Omit<Rule, 'place' | 'yieldsAt' | 'earlier' | 'tests' | 'when' | 'effects'> & {
  readonly place: KeptPlace;
  readonly yieldsAt?: readonly KeptPlace[];
  readonly earlier?: readonly KeptRule[];
  readonly tests: readonly KeptTest[];
  readonly when: KeptCondition;
  readonly effects: Readonly<Record<string, string | KeptTarget>>;
};

/** Effects that speak of plans, and so hold tests of their own. */
const TARGETS = ['ruleOut', 'callFor', 'prefer', 'avoid'] as const;

function serializeRule(rule: Rule, keep: (place: Place) => KeptPlace): KeptRule {
  const keepTest = (test: Test): KeptTest => ({ ...test, place: keep(test.place) });
  const keepTarget = (target: PlanTarget): KeptTarget =>
    target === 'this plan' ? target : target.map(keepTest);
  const effects: Record<string, string | KeptTarget> = { ...withoutTargets(rule.effects) };
  for (const name of TARGETS) {
    const target = rule.effects[name];
    if (target !== undefined) effects[name] = keepTarget(target);
  }
  const { yieldsAt, earlier, ...rest } = rule;
  return {
    ...rest,
    ...(yieldsAt && { yieldsAt: yieldsAt.map(keep) }),
    ...(earlier && { earlier: earlier.map((each) => serializeRule(each, keep)) }),
    place: keep(rule.place),
    tests: rule.tests.map(keepTest),
    when: keepCondition(rule.when),
    effects,
  };
}

function deserializeRule(kept: KeptRule, find: (place: KeptPlace) => Place): Rule {
  const findTest = (test: KeptTest): Test => ({ ...test, place: find(test.place) });
  const tests = kept.tests.map(findTest);
  const effects: Record<string, unknown> = { ...kept.effects };
  for (const name of TARGETS) {
    const target = kept.effects[name];
    if (Array.isArray(target)) effects[name] = target.map(findTest);
  }
  const { yieldsAt, earlier, ...rest } = kept;
  return {
    ...rest,
    ...(yieldsAt && { yieldsAt: yieldsAt.map(find) }),
    ...(earlier && { earlier: earlier.map((each) => deserializeRule(each, find)) }),
    // JSON drops what is not there.
    until: kept.until,
    place: find(kept.place),
    tests,
    when: findCondition(kept.when, tests),
    // The keys and their kinds are those `serializeRule` took from a rule.
    effects: effects as Effects,
  };
}

const withoutTargets = (effects: Effects): Readonly<Record<string, string>> => {
  const { ruleOut: _1, callFor: _2, prefer: _3, avoid: _4, ...rest } = effects;
  return rest;
};

function keepCondition(condition: Condition): KeptCondition {
  if ('all' in condition) return { all: condition.all.map(keepCondition) };
  if ('any' in condition) return { any: condition.any.map(keepCondition) };
  if ('not' in condition) return { not: keepCondition(condition.not) };
  return condition.test.leaf;
}

function findCondition(kept: KeptCondition, tests: readonly Test[]): Condition {
  if (typeof kept === 'number') {
    const test = tests[kept];
    if (test === undefined) throw new Error(`the rule kept has no test ${kept}`);
    return { test };
  }
  if ('all' in kept) return { all: kept.all.map((part) => findCondition(part, tests)) };
  if ('any' in kept) return { any: kept.any.map((part) => findCondition(part, tests)) };
  return { not: findCondition(kept.not, tests) };
}

/** A place without what its file tells anyway: index of the file, line, column, length. */
type KeptPlace = readonly [file: number, line: number, column: number, length: number];

/** Turns places of the files given into kept ones. Throws where a place lies in none of them. */
const placeKeeper = (files: readonly TextFile[]): ((place: Place) => KeptPlace) => {
  const index = new Map(files.map(({ file }, number) => [file, number]));
  return ({ file, line, column, length }) => {
    const number = index.get(file);
    if (number === undefined) throw new Error(`${file} is not among the files kept`);
    return [number, line, column, length];
  };
};

/** Turns kept places back; names and lines come from the files as they are given now, lines when somebody quotes one. */
const placeFinder = (files: readonly TextFile[]): ((kept: KeptPlace) => Place) => {
  const lines = files.map(({ file }, number) => {
    const split = memoize(() => (files[number]?.text ?? '').replace(/^\uFEFF/, '').split('\n'));
    return { file, at: (line: number) => (split()[line - 1] ?? '').replace(/\r$/, '') };
  });
  return ([number, line, column, length]) => ({
    file: lines[number]?.file ?? '',
    line,
    column,
    length,
    get text() {
      return lines[number]?.at(line) ?? '';
    },
  });
};
