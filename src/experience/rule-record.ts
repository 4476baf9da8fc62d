import type { QuiltCase } from '../casebook/model.ts';
import type { DecisionContext } from '../decision/context.ts';
import { evaluate } from '../decision/evaluate.ts';
import type { Settled } from '../decision/outcome.ts';
import { stageRules } from '../decision/precedence.ts';
import { isDeciding, rulesWithAPart } from '../decision/reasons.ts';
import type { Figures } from '../figures/model.ts';
import type { Rule } from '../rulebook/model.ts';
import { type LifeEvidence, placeOf } from './life-evidence.ts';

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
  readonly override:
    | { readonly chosen: string; readonly because: string; readonly rules: readonly string[] | undefined }
    | undefined;
}

const ruleCase = (quiltCase: QuiltCase, rules: readonly Rule[], context: DecisionContext): RuleCase => {
  const settled = evaluate(quiltCase, context);
  const { situation, outcome, ballot, active } = settled;
  const fired = rules.filter(
    (rule) =>
      active.of(rule, undefined) === true ||
      (rule.perPlan && situation.options.some((_, option) => active.of(rule, option) === true)),
  );
  const decided = rulesWithAPart(rules, active, outcome).filter((rule) =>
    isDeciding(rule, situation, ballot, outcome),
  );
  return {
    quiltCase,
    fired: new Set(fired.map(({ id }) => id)),
    decided: new Set(decided.map(({ id }) => id)),
    override: overrideIn(quiltCase, settled),
  };
};

/** The practitioner's latest choice against a recommendation; what a client chose is no verdict on a rule. */
const overrideIn = ({ decisions = [] }: QuiltCase, { outcome }: Settled): RuleCase['override'] => {
  const entry = decisions.filter(({ chosen, kind }) => chosen !== undefined && kind !== 'client').at(-1);
  if (entry?.chosen === undefined || entry.chosen === (entry.treatment ?? outcome.treatment))
    return undefined;
  return { chosen: entry.chosen, because: entry.because ?? 'no reason recorded', rules: entry.overrides };
};

/** Every rule of the stages over all cases, in stage order. */
export const ruleRecords = (
  cases: readonly QuiltCase[],
  evidence: readonly LifeEvidence[],
  context: DecisionContext,
): RuleRecord[] => {
  const rules = stageRules(context.knowledge.rulebook);
  const all = cases.map((quiltCase) => ruleCase(quiltCase, rules, context));
  const lives = new Map(evidence.map((one) => [one.case, one]));
  return rules.map((rule): RuleRecord => {
    const decided = all.filter((one) => one.decided.has(rule.id));
    const followed = decided.flatMap((one) => lives.get(one.quiltCase.case) ?? []);
    const record = {
      rule: rule.id,
      title: rule.title,
      fired: all.filter((one) => one.fired.has(rule.id)).length,
      decided: decided.length,
      overridden: all.flatMap(({ quiltCase, override, decided: deciding }) => {
        if (override === undefined) return [];
        const { rules: named, chosen, because } = override;
        // Recorded by the tool: the rules are named. Written by hand: those that decided.
        const meant = named === undefined ? deciding.has(rule.id) : named.includes(rule.id);
        return meant ? [{ case: quiltCase.case, chosen, because }] : [];
      }),
      outcomes: {
        followed: followed.length,
        due: followed.filter(({ outcome }) => outcome.dueAt !== undefined).length,
        sooner: followed.filter((one) => placeOf(one) === 'sooner').length,
      },
    };
    return { ...record, worthALook: worthALook(record, couldDecide(rule), context.knowledge.figures) };
  });
};

/** Rules that only caution, ask or offer have no part in which answer it is. */
const couldDecide = ({ effects }: Rule): boolean =>
  effects.stand !== undefined ||
  effects.ruleOut !== undefined ||
  effects.callFor !== undefined ||
  effects.prefer !== undefined ||
  effects.avoid !== undefined;

const worthALook = (
  { fired, decided, overridden, outcomes }: Omit<RuleRecord, 'worthALook'>,
  decides: boolean,
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
    ...(decides && fired >= mark('never_decides') && decided === 0
      ? [`true in ${fired} cases and decided none`]
      : []),
  ];
};
