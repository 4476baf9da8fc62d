import type { QuiltCase, RecordedDecision } from '../casebook/model.ts';
import { isDeciding, rulesWithAPart } from '../decision/deciding.ts';
import { stageRules } from '../decision/verdicts.ts';
import type { Figures } from '../rulebook/figures-model.ts';
import type { Rule } from '../rulebook/model.ts';
import type { LifeEvidence } from './life-evidence.ts';
import { placeOf } from './life-record.ts';
import { type Court, type Quick, quickly } from './outcome-of.ts';

/** How one rule has fared over the studio's cases. */
export interface RuleRecord {
  readonly rule: string;
  readonly title: string;
  /** Cases in which it was true. */
  readonly fired: number;
  /** Cases in which, without it, standing or treatment would have been another. */
  readonly decided: number;
  /** Cases in which it decided and the practitioner chose otherwise. */
  readonly overridden: readonly {
    readonly case: string;
    readonly chosen: string;
    readonly because: string;
  }[];
  /** Of the quilts it decided on: followed up, needing repair, and needing it before the forecast's low end. */
  readonly outcomes: { readonly followed: number; readonly due: number; readonly sooner: number };
  /** Why it is worth a look; empty where it is not. */
  readonly worthALook: readonly string[];
}

/** What one case says of the rules. */
interface RuleCase {
  readonly quiltCase: QuiltCase;
  readonly fired: ReadonlySet<string>;
  readonly decided: ReadonlySet<string>;
  readonly override: { readonly chosen: string; readonly because: string } | undefined;
}

const ruleCase = (quiltCase: QuiltCase, rules: readonly Rule[], court: Court): RuleCase => {
  const quick = quickly(quiltCase, court);
  const { situation, outcome, ballot, force } = quick;
  const fired = rules.filter(
    (rule) =>
      force.of(rule, undefined) === true ||
      (rule.perPlan && situation.options.some((_, option) => force.of(rule, option) === true)),
  );
  const decided = rulesWithAPart(rules, force, outcome).filter((rule) =>
    isDeciding(rule, situation, ballot, outcome),
  );
  return {
    quiltCase,
    fired: new Set(fired.map(({ id }) => id)),
    decided: new Set(decided.map(({ id }) => id)),
    override: overrideIn(quiltCase, quick),
  };
};

/** The latest choice recorded against the recommendation. */
const overrideIn = ({ decisions = [], completed }: QuiltCase, { outcome }: Quick): RuleCase['override'] => {
  const chosen = decisions
    .map(choiceIn)
    .filter((one) => one !== undefined)
    .at(-1);
  const choice =
    chosen ??
    (completed?.treatment === undefined
      ? undefined
      : { chosen: completed.treatment, because: 'no reason recorded' });
  return choice === undefined || choice.chosen === outcome.treatment ? undefined : choice;
};

const choiceIn = ({
  chosen,
  treatment,
  because,
}: RecordedDecision): { chosen: string; because: string } | undefined => {
  const taken = chosen ?? treatment;
  return taken && { chosen: taken, because: because ?? 'no reason recorded' };
};

/** Every rule of the stages over all cases, in stage order. */
export const ruleRecords = (
  cases: readonly QuiltCase[],
  evidence: readonly LifeEvidence[],
  court: Court,
): RuleRecord[] => {
  const rules = stageRules(court.knowledge.rulebook);
  const all = cases.map((quiltCase) => ruleCase(quiltCase, rules, court));
  const lives = new Map(evidence.map((one) => [one.case, one]));
  return rules.map((rule): RuleRecord => {
    const decided = all.filter((one) => one.decided.has(rule.id));
    const followed = decided.flatMap((one) => lives.get(one.quiltCase.case) ?? []);
    const record = {
      rule: rule.id,
      title: rule.title,
      fired: all.filter((one) => one.fired.has(rule.id)).length,
      decided: decided.length,
      overridden: decided.flatMap(({ quiltCase, override }) =>
        override === undefined ? [] : [{ case: quiltCase.case, ...override }],
      ),
      outcomes: {
        followed: followed.length,
        due: followed.filter(({ outcome }) => outcome.dueAt !== undefined).length,
        sooner: followed.filter((one) => placeOf(one) === 'sooner').length,
      },
    };
    return { ...record, worthALook: worthALook(record, court.knowledge.figures) };
  });
};

const worthALook = (
  { fired, decided, overridden, outcomes }: Omit<RuleRecord, 'worthALook'>,
  figures: Figures,
): string[] => {
  const mark = (name: string): number => figures.number(`experience.worth_a_look.${name}`);
  return [
    ...(overridden.length >= mark('overridden') ? [`decided otherwise ${overridden.length} times`] : []),
    ...(outcomes.sooner >= mark('against')
      ? [
          `${outcomes.sooner} of ${outcomes.followed} quilts it decided on needed repair before the forecast’s low end`,
        ]
      : []),
    ...(fired >= mark('never_decides') && decided === 0 ? [`true in ${fired} cases and decided none`] : []),
  ];
};
