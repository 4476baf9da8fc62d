import { stringify } from 'yaml';
import { liesIn } from '../../../src/analysis/boxes.ts';
import type { Box, Space } from '../../../src/analysis/cells.ts';
import { samplesIn } from '../../../src/analysis/cells.ts';
import { PLAN_KINDS, type PlanKind } from '../../../src/analysis/plan-kinds.ts';
import { examine } from '../../../src/analysis/rulebook-model.ts';
import { readingsOf } from '../../../src/analysis/study.ts';
import { readCase } from '../../../src/casebook/read-case.ts';
import { prepare } from '../../../src/decision/prepare.ts';
import type { Situation } from '../../../src/decision/situation.ts';
import type { Fact } from '../../../src/findings/fact.ts';
import { findingReader } from '../../../src/findings/read-answer.ts';
import type { Vocabulary } from '../../../src/findings/vocabulary.ts';
import { evaluateRule } from '../../../src/rulebook/evaluate.ts';
import type { Rule } from '../../../src/rulebook/model.ts';
import type { Studio } from '../../../src/store/studio.ts';
import { DERIVED } from './derived.ts';
import { bareDraft, copyOf, type Draft, put } from './draft.ts';
import { FITTED, fitTo } from './fitted.ts';
import { putStated } from './stated.ts';

export interface Skeleton {
  readonly draft: Draft;
  /** The case file. */
  readonly text: string;
  /** Whether the rule is true of the case as written; what is left to do by hand where it is not. */
  readonly reached: boolean;
}

/** Reads a draft as the program would a file of it; undefined where it is not a sound case. */
export type Prepare = (draft: Draft) => Situation | undefined;

/** What a case is to show, by key. */
export type Wanted = ReadonlyMap<string, Fact>;

/** One value for each subject of a box: what is known before what is not; and layers that have a plan as the box wants it. */
export function wantedOf(box: Box, space: Space): Wanted {
  const wanted = [...box].flatMap(([key, cells]): [string, Fact][] => {
    const axis = space.axes.get(key);
    if (axis === undefined) return [];
    const [first, second] = samplesIn(axis, cells);
    return [[key, first ?? second]];
  });
  const fitting = PLAN_KINDS.flat().filter((kind) => liesIn(kind, box, space));
  const usual = fitting.some(({ layers }) => layers.batting === 'unknown' && layers.backing === 'unknown');
  return new Map([...(usual ? [] : layersOf(fitting[0])), ...wanted]);
}

const layersOf = (kind: PlanKind | undefined): [string, Fact][] =>
  ['finding.batting_kind', 'finding.backing_kind'].flatMap((key): [string, Fact][] => {
    const fact = kind?.facts[key];
    return fact === undefined ? [] : [[key, fact]];
  });

/** Writes into a draft what makes it show the facts wanted, as far as a case can state them. */
export function write(
  base: Draft,
  wanted: Wanted,
  rule: Rule,
  vocabulary: Vocabulary,
  prepare: Prepare,
): Draft {
  const draft = copyOf(base);
  const order = Object.keys(DERIVED);
  const derived: [string, Fact][] = [];
  const fitted: [string, number][] = [];
  for (const [key, fact] of wanted) {
    const [kind = '', ...rest] = key.split('.');
    const id = rest.join('.');
    const def = kind === 'finding' ? vocabulary.findings.get(id) : undefined;
    if (FITTED[key] !== undefined && typeof fact === 'number') fitted.push([key, fact]);
    else if (def !== undefined && putStated(draft, def, fact)) continue;
    else if (fact !== undefined && DERIVED[id] !== undefined && kind !== 'plan') derived.push([id, fact]);
  }
  derived.sort(([a], [b]) => order.indexOf(a) - order.indexOf(b));
  for (const [id, fact] of derived) DERIVED[id]?.(draft, fact);
  for (const [key, fact] of fitted) fitTo(draft, key, fact, rule, prepare);
  return draft;
}

/** The smallest case that makes a rule true: what its condition asks for and nothing else. Tries one way after the other. */
function skeleton(
  rule: Rule,
  ways: readonly Box[],
  tools: {
    readonly space: Space;
    readonly vocabulary: Vocabulary;
    readonly prepare: Prepare;
  },
): Skeleton {
  const bare = bareDraft(rule.id);
  let first: Draft | undefined;
  for (const [base, way] of [bare, settled(bare)].flatMap((each) =>
    ways.map((way) => [each, way] as const),
  )) {
    const draft = write(base, wantedOf(way, tools.space), rule, tools.vocabulary, tools.prepare);
    const situation = tools.prepare(draft);
    if (
      situation !== undefined &&
      readingsOf(rule, situation).some((facts) => evaluateRule(rule, facts) === true)
    ) {
      return { draft, text: textOf(draft, rule, true), reached: true };
    }
    first ??= draft;
  }
  const draft = first ?? bare;
  return { draft, text: textOf(draft, rule, false), reached: false };
}

/** The same by the shipped rules, on the day the rule came into force, so that a rule still to come can be exercised too. */
export function skeletonOf(rule: Rule, { knowledge, practice }: Pick<Studio, 'knowledge' | 'practice'>) {
  const examined = examine(knowledge.rulebook, knowledge, rule.since);
  const reader = findingReader(knowledge.vocabulary);
  return skeleton(rule, examined.waysTrue(rule), {
    space: examined.space,
    vocabulary: knowledge.vocabulary,
    prepare: (draft) => {
      const { case: quiltCase } = readCase('draft', stringify(draft), reader);
      return quiltCase === undefined
        ? undefined
        : prepare(quiltCase, { knowledge, practice, day: rule.since });
    },
  });
}

/** What the rules for units ask of every quilt, answered: without it what is done with units stays open, and so does all that follows. */
function settled(bare: Draft): Draft {
  const draft = copyOf(bare);
  put(draft, ['client', 'wish'], 'repair');
  put(draft, ['client', 'intended_use'], 'display');
  put(draft, ['survey', 'findings', 'outstanding_work'], 'no');
  return draft;
}

function textOf(draft: Draft, rule: Rule, reached: boolean): string {
  const head = [
    `# The smallest case of which "${rule.id}" is true: ${rule.title.toLowerCase()}.`,
    ...(reached ? [] : ['# As it stands the rule is not true of it yet: see what the rule asks for.']),
  ];
  return `${head.join('\n')}\n${stringify({ ...draft, expect: { because: [rule.id] } }, { lineWidth: 0 })}`;
}
