import type { Expectation, QuiltCase } from '../casebook/model.ts';
import { Advice } from '../decision/advice.ts';
import type { StudioPractice } from '../decision/context.ts';
import type { Expectable } from '../decision/expectation.ts';
import { type Outcome, settle } from '../decision/outcome.ts';
import { ActiveRules, evaluateRules, type RuleTruths } from '../decision/precedence.ts';
import { prepare } from '../decision/prepare.ts';
import { provisionalOn, undecidedRules } from '../decision/provisional.ts';
import { groupFacts } from '../decision/quilt-facts.ts';
import { rulesWithAPart } from '../decision/reasons.ts';
import type { Situation } from '../decision/situation.ts';
import { type Ballot, collectVotes } from '../decision/votes.ts';
import { Words } from '../decision/wording.ts';
import type { Facts } from '../findings/fact.ts';
import { memoize } from '../quantities/memo.ts';
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

/** A case made ready once, to be judged as often as needed. */
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
  situation: prepare(quiltCase, { knowledge, practice: own ?? practice, day: asOf }),
  expect: quiltCase.expect,
});

/** A case judged on the fast path: what can be expected of the answer, without its sentences. */
export interface CaseResult extends Expectable {
  readonly outcome: Outcome;
  readonly ballot: Ballot;
  /** Rules that what is not known leaves undecided. */
  readonly undecided: readonly string[];
}

/** What is worked out of a case already. */
interface Known {
  readonly truths?: RuleTruths;
  readonly settled?: Pick<CaseResult, 'outcome' | 'ballot'> | undefined;
}

/**
 * Judges a case by the rules of the stages. Rules of units have had their say when it was prepared. `settled` spares
 * the settling where rules differ from those of another judgement in their advice alone.
 */
export function evaluateCase(
  situation: Situation,
  rules: readonly Rule[],
  subjects: Subjects,
  { truths = evaluateRules(situation), settled }: Known = {},
): CaseResult {
  const active = new ActiveRules(rules, truths);
  const ballot = settled?.ballot ?? collectVotes(situation, rules, active);
  const outcome = settled?.outcome ?? settle(situation, ballot);
  // Sentences are not wanted, only whose they are.
  const texts = new Advice({ situation, outcome, rules, active }, new Words(subjects, () => ''));
  const recommended = outcome.treatment === null ? undefined : situation.options[outcome.best ?? -1];
  const provisional = memoize(() => provisionalOn(situation, ballot, outcome));
  const cited = memoize(
    () =>
      new Set([
        ...rulesWithAPart(rules, active, outcome).map(({ id }) => id),
        ...(recommended?.plan.actions ?? []).flatMap((each) => each.rules),
        ...[
          texts.cautions(),
          texts.of('ask'),
          texts.of('condition'),
          texts.of('offer'),
          texts.outranked(),
        ].flatMap((said) => said.map(({ rule }) => rule)),
      ]),
  );
  return {
    outcome,
    ballot,
    standing: outcome.standing,
    treatment: outcome.treatment,
    refused_uses: situation.refusedUses,
    actions: [...new Set(recommended?.plan.actions.map(({ action }) => action))].filter(
      (action) => action !== 'keep',
    ),
    get undecided() {
      return undecidedRules(ballot).map(({ id }) => id);
    },
    get provisional() {
      return provisional();
    },
    get cited() {
      return cited();
    },
  };
}

/**
 * The sets of facts a rule is judged on in one case: one for each group of units, one for each plan, or one for the
 * quilt; a rule that refuses a use looks at what was asked.
 */
export function readingsOf(rule: Rule, situation: Situation): readonly Facts[] {
  if (rule.group === 'units') {
    return situation.quilt.groups.map((group) => ({
      ...situation.facts,
      ...groupFacts(situation.quilt, group),
    }));
  }
  if (rule.perPlan) return situation.options.map(({ facts }) => facts);
  return [rule.effects.refuseUse === undefined ? situation.facts : situation.asked];
}
