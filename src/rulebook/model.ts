import type { Hazard } from '../casebook/scales.ts';
import type { Evidence } from '../figures/model.ts';
import type { Place } from '../problems/problem.ts';
import type { ComparisonName, Operand } from './comparisons.ts';

/** Stages in the order they speak; each may narrow what the earlier ones left and never widens it. */
export const STAGES = ['stop', 'refer', 'capability', 'extent', 'structure', 'joining', 'means'] as const;
export type Stage = (typeof STAGES)[number];

/** `units` is not a stage of the answer: its rules choose what is done with each unit, before there are plans. */
export type RuleGroup = Stage | 'units';

export type SubjectKind = 'finding' | 'planned' | 'plan' | 'unit' | 'family';

/** One comparison: the leaf of a condition. */
export interface Test {
  /** Position among all tests of its rule, counted in reading order: ties a trace to a line of the file. */
  readonly leaf: number;
  readonly subject: SubjectKind;
  readonly id: string;
  /** `finding.loss`: the fact it reads. */
  readonly key: string;
  readonly comparison: ComparisonName;
  readonly operand: Operand;
  readonly place: Place;
}

export type Condition =
  | { readonly all: readonly Condition[] }
  | { readonly any: readonly Condition[] }
  | { readonly not: Condition }
  | { readonly test: Test };

/** Which plans an effect speaks of: the plan at hand, or every plan that passes these tests. */
export type PlanTarget = 'this plan' | readonly Test[];

export type Standing = 'go_ahead' | 'not_yet' | 'refer' | 'decline';

/** What a rule does when it holds. A rule may do several things; those it does not do are absent. */
export interface Effects {
  readonly stand?: Exclude<Standing, 'go_ahead'>;
  /** Beside "not yet": too little is known to say what would be done afterwards. */
  readonly noTreatmentYet?: 'yes';
  readonly refuseUse?: string;
  readonly ruleOut?: PlanTarget;
  readonly callFor?: readonly Test[];
  readonly prefer?: PlanTarget;
  readonly avoid?: PlanTarget;
  /** What can harm, for everybody: those who live with the quilt and those who work on it. */
  readonly caution?: string;
  /** The same, so weighty that it stands beside the advice itself and not among the others. */
  readonly cautionFirst?: string;
  /** The same, for those who live with it alone. */
  readonly cautionHome?: string;
  /** The same, for those who work on it alone. */
  readonly cautionWorkroom?: string;
  /** The hazard a stop rule speaks of: what was done about it is recorded under the same name. */
  readonly hazard?: Hazard;
  /** What to do at once, until the stop is lifted. */
  readonly meanwhile?: string;
  /** Who settles it, and in what written form. */
  readonly settledBy?: string;
  /** Who else to ask about it. */
  readonly specialist?: string;
  readonly ask?: string;
  readonly condition?: string;
  readonly offer?: string;
  readonly action?: string;
}

/** Effects that are one sentence each, which may hold placeholders, by the words a rule file has for them. */
export const SENTENCES = {
  caution: 'caution',
  cautionFirst: 'caution first',
  cautionHome: 'caution at home',
  cautionWorkroom: 'caution in the workroom',
  meanwhile: 'do now',
  settledBy: 'settled by',
  specialist: 'ask others',
  ask: 'ask',
  condition: 'condition',
  offer: 'offer',
} as const satisfies Partial<Record<keyof Effects, string>>;
export type SentenceEffect = keyof typeof SENTENCES;
export const SENTENCE_EFFECTS = Object.keys(SENTENCES) as readonly SentenceEffect[];

export type EffectName = keyof Effects;

/** An earlier wording, kept when a rule is amended, so that a rule shows how it came to be. */
export interface EarlierWording {
  readonly until: string;
  readonly reason: string;
  readonly changed: Readonly<Record<string, unknown>>;
}

export interface Rule {
  readonly id: string;
  readonly group: RuleGroup;
  readonly title: string;
  readonly when: Condition;
  readonly effects: Effects;
  readonly because: string;
  readonly evidence: Evidence;
  readonly source: string;
  readonly since: string;
  readonly until: string | undefined;
  readonly yieldsTo: readonly string[];
  /** Where each of them is named, for messages. */
  readonly yieldsAt?: readonly Place[];
  readonly was: readonly EarlierWording[];
  /** The rule as it read before each change, latest first: what held on an earlier day. */
  readonly earlier?: readonly Rule[];
  /** True where a condition reads the plan: the rule is then judged once for each plan, otherwise once. */
  readonly perPlan: boolean;
  readonly tests: readonly Test[];
  readonly place: Place;
}

export interface Rulebook {
  readonly version: string;
  readonly digest: string;
  /** In stage order, then by name: the order in the files means nothing. */
  readonly rules: readonly Rule[];
}
