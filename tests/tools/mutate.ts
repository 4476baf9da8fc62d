import { type CaseResult, evaluateCase, readingsOf, type Study, studyOf } from '../../src/analysis/study.ts';
import { departures } from '../../src/decision/expectation.ts';
import { evaluateRules, type RuleTruths, stageRules } from '../../src/decision/precedence.ts';
import { chooseActions, evaluateGroups } from '../../src/decision/quilt-facts.ts';
import { evaluateRule } from '../../src/rulebook/evaluate.ts';
import type { Truth } from '../../src/rulebook/kleene.ts';
import type { Knowledge } from '../../src/rulebook/knowledge.ts';
import { type Rule, SENTENCE_EFFECTS } from '../../src/rulebook/model.ts';
import { canDiffer } from './can-differ.ts';
import { type Mutant, mutantsOf } from './mutants.ts';

export interface MutantResult {
  readonly mutant: Mutant;
  /** The first case whose expectations it breaks; undefined where it lives. */
  readonly caughtBy: string | undefined;
  /** No case could catch it: no facts there are tell it from the rule. */
  readonly equivalent: boolean;
}

export interface Setting {
  readonly knowledge: Knowledge;
  readonly asOf: string;
}

/** A case judged by the rules as they are, with its verdicts kept, and what it already fails. */
export interface Prepared {
  readonly study: Study;
  readonly truths: RuleTruths;
  readonly judged: CaseResult;
  readonly known: ReadonlySet<string>;
}

export function prepared(study: Study, { knowledge }: Setting): Prepared {
  const truths = evaluateRules(study.situation);
  const judged = evaluateCase(study.situation, stageRules(knowledge.rulebook), knowledge.subjects, {
    truths,
  });
  const known = new Set(departures(study.expect ?? {}, judged).map(({ what }) => what));
  return { study, truths, judged, known };
}

/**
 * Tries every mutant of every rule against the cases that expect something. A case catches a mutant when an
 * expectation fails that held before. Cases that name the rule are tried first.
 */
export function mutate(rules: readonly Rule[], studies: readonly Study[], setting: Setting): MutantResult[] {
  const { subjects } = setting.knowledge;
  const ready = studies.filter(({ expect }) => expect !== undefined).map((study) => prepared(study, setting));
  return rules.flatMap((rule) => {
    const names = ({ study: { expect } }: Prepared): boolean =>
      [...(expect?.because ?? []), ...(expect?.not_because ?? [])].includes(rule.id);
    const order = [...ready.filter(names), ...ready.filter((each) => !names(each))];
    return mutantsOf(rule, subjects).map((mutant): MutantResult => {
      const catcher = order.find((each) => catches(mutant, each, setting));
      const equivalent = catcher === undefined && !canDiffer(mutant, rules, setting.knowledge);
      return { mutant, caughtBy: catcher?.study.name, equivalent };
    });
  });
}

function catches(mutant: Mutant, { study, known, ...rest }: Prepared, setting: Setting): boolean {
  const now = judgedWith(mutant, { study, known, ...rest }, setting);
  return now !== undefined && departures(study.expect ?? {}, now).some(({ what }) => !known.has(what));
}

/** A case judged with one rule changed; undefined where the change makes no difference to any verdict. */
export function judgedWith(mutant: Mutant, prepared: Prepared, setting: Setting): CaseResult | undefined {
  if (!makesADifference(mutant, prepared.study)) return undefined;
  const { rulebook, subjects } = setting.knowledge;
  const rules = rulebook.rules.map((rule) => (rule.id === mutant.rule.id ? mutant.mutated : rule));
  const anew = changed(mutant, rules, prepared, setting);
  const settled = advisesOnly(mutant, rulebook.rules) ? prepared.judged : undefined;
  const { situation } = anew.study;
  return evaluateCase(situation, stageRules({ ...rulebook, rules }), subjects, {
    truths: anew.truths,
    settled,
  });
}

const ADVICE: readonly string[] = SENTENCE_EFFECTS;

/** Neither the rule nor the mutant weighs, and no rule gives way to it: nothing but its sentences can differ. */
const advisesOnly = ({ rule, mutated }: Mutant, rules: readonly Rule[]): boolean =>
  rule.group !== 'units' &&
  [rule, mutated].every(({ effects }) => Object.keys(effects).every((name) => ADVICE.includes(name))) &&
  !rules.some(({ yieldsTo }) => yieldsTo.includes(rule.id));

/** Whether the rule says anything else in this case: where it does not, nothing that follows can differ. */
function makesADifference({ rule, mutated, kind }: Mutant, { situation }: Study): boolean {
  const readings = readingsOf(rule, situation);
  if (kind === 'effect') return readings.some((facts) => evaluateRule(rule, facts) !== false);
  return readings.some((facts) => evaluateRule(rule, facts) !== evaluateRule(mutated, facts));
}

/** The case as the changed rule leaves it: prepared anew only where units are treated otherwise, or a use is refused. */
function changed(
  { rule, mutated }: Mutant,
  rules: readonly Rule[],
  { study, truths }: Prepared,
  { knowledge, asOf }: Setting,
): { study: Study; truths: RuleTruths } {
  const rulebook = { ...knowledge.rulebook, rules };
  const actsOtherwise =
    rule.group === 'units' &&
    JSON.stringify(actionsOf(study, rulebook)) !== JSON.stringify(actionsOf(study, knowledge.rulebook));
  if (!actsOtherwise && rule.effects.refuseUse === undefined)
    return { study, truths: withRule(truths, mutated, study) };
  const anew = studyOf(
    { file: study.file, quiltCase: study.quiltCase, from: study.from },
    { ...knowledge, rulebook },
    study.practice,
    asOf,
  );
  return { study: { ...anew, expect: study.expect }, truths: evaluateRules(anew.situation) };
}

const actionsOf = ({ situation }: Study, rulebook: Knowledge['rulebook']) =>
  chooseActions(
    evaluateGroups(situation.quilt, situation.quiltCase.quilt.must_stay ?? [], rulebook, situation.facts),
  ).map(({ action, rules }) => [action, rules]);

/** Verdicts of all rules but one are the same as before, and are not judged again. */
function withRule(truths: RuleTruths, mutated: Rule, { situation }: Study): RuleTruths {
  const own = evaluateRules(situation);
  const of =
    (name: 'quilt' | 'anyPlan') =>
    (rule: Rule): Truth =>
      (rule === mutated ? own : truths)[name](rule);
  return {
    quilt: of('quilt'),
    anyPlan: of('anyPlan'),
    plan: (rule, option) => (rule === mutated ? own : truths).plan(rule, option),
  };
}
