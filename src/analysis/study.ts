import type { Expectation, QuiltCase } from '../casebook/model.ts';
import { Advice } from '../decision/advice.ts';
import type { StudioPractice } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import type { Expectable } from '../decision/expectation.ts';
import { recommendedOption, type Settled } from '../decision/outcome.ts';
import { provisionalOn, undecidedRules } from '../decision/provisional.ts';
import { groupFacts } from '../decision/quilt-facts.ts';
import { rulesWithAPart } from '../decision/reasons.ts';
import type { Situation } from '../decision/situation.ts';
import { Words } from '../decision/wording.ts';
import type { Facts } from '../findings/fact.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rule } from '../rulebook/model.ts';
import type { Subjects } from '../rulebook/subjects.ts';

/** A case as the analysis is given it. */
export interface CaseText {
  /** The file it stands in, as it is shown. */
  readonly file: string;
  readonly quiltCase: QuiltCase;
  readonly from: 'studio' | 'shipped';
  /** The practice it is judged by, where the folder it stands in has its own. */
  readonly practice?: StudioPractice;
}

/** A case evaluated once, to be read as often as needed. */
export interface Study {
  readonly name: string;
  readonly file: string;
  readonly from: 'studio' | 'shipped';
  readonly quiltCase: QuiltCase;
  readonly situation: Situation;
  readonly practice: StudioPractice;
  readonly expect: Expectation | undefined;
}

/** `knowledge` holds the rules in force on the day; `practice` is the studio's. */
export const studyOf = (
  { file, quiltCase, from, practice: own }: CaseText,
  knowledge: Knowledge,
  practice: StudioPractice,
  asOf: string,
): Study => ({
  name: quiltCase.case,
  file,
  from,
  quiltCase,
  practice: own ?? practice,
  situation: evaluate(quiltCase, { knowledge, practice: own ?? practice, day: asOf }).situation,
  expect: quiltCase.expect,
});

/** What can be expected of an answer, without its sentences. */
export interface CaseResult extends Expectable {
  /** Rules that what is not known leaves undecided. */
  readonly undecided: readonly string[];
}

/** Which rules an answer rests on and names, and what else can be expected of it. */
export function resultOf(settled: SettledByRules, subjects: Subjects): CaseResult {
  const { situation, ballot, outcome, rules, active } = settled;
  // Sentences are not wanted, only whose they are.
  const advice = new Advice(settled, new Words(subjects, () => ''));
  const actions = recommendedOption(settled)?.option.plan.actions ?? [];
  const said = (['ask', 'condition', 'offer'] as const).flatMap((effect) => advice.of(effect));
  return {
    standing: outcome.standing,
    treatment: outcome.treatment,
    refused_uses: situation.refusedUses,
    actions: [...new Set(actions.map(({ action }) => action))].filter((action) => action !== 'keep'),
    undecided: undecidedRules(ballot).map(({ id }) => id),
    provisional: provisionalOn(situation, ballot, outcome),
    cited: new Set([
      ...rulesWithAPart(rules, active, outcome).map(({ id }) => id),
      ...actions.flatMap((each) => each.rules),
      ...[...advice.cautions(), ...said, ...advice.outranked()].map(({ rule }) => rule),
    ]),
  };
}

type SettledByRules = Pick<Settled, 'situation' | 'rules' | 'active' | 'ballot' | 'outcome'>;

/**
 * The sets of facts a rule is judged on in one case: one for each group of units, one for each plan, or one for the
 * quilt; a rule that refuses a use looks at what was asked.
 */
export function readingsOf(rule: Rule, situation: Situation): readonly Facts[] {
  if (rule.group === 'units') {
    return situation.quilt.groups.flatMap((group) =>
      groupFacts(situation.quilt, group).map((own) => ({ ...situation.facts, ...own })),
    );
  }
  if (rule.perPlan) return situation.options.map(({ facts }) => facts);
  return [rule.effects.refuseUse === undefined ? situation.facts : situation.asked];
}
