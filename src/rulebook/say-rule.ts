import type { Action } from '../casebook/scales.ts';
import type { Evidence } from '../figures/model.ts';
import { type FormatStyle, sayValue } from '../findings/say.ts';
import { comparison } from './comparisons.ts';
import type { Condition, EffectName, Effects, PlanTarget, Rule, RuleGroup, Test } from './model.ts';
import { fillPlaceholders } from './placeholders.ts';
import type { Subject, Subjects } from './subjects.ts';

/** A condition in words: one sentence, or a lead with what it gathers. */
export type SaidCondition =
  | string
  | { readonly lead: 'all of these' | 'any of these' | 'not'; readonly of: readonly SaidCondition[] };

/** A rule as a practitioner would say it. Everything comes from the rule itself and its findings' labels. */
export interface SaidRule {
  readonly rule: string;
  readonly stage: RuleGroup;
  readonly title: string;
  readonly when: SaidCondition;
  readonly does: readonly string[];
  readonly because: string;
  readonly evidence: Evidence;
  readonly source: string;
  readonly since: string;
  readonly until: string | null;
  readonly yields_to: readonly string[];
}

/** Pure. `style` says in which units and money thresholds are shown. */
export function sayRule(rule: Rule, subjects: Subjects, style: FormatStyle): SaidRule {
  const words: Wording = { subjects, style };
  return {
    rule: rule.id,
    stage: rule.group,
    title: rule.title,
    when: sayCondition(rule.when, words),
    does: sayEffects(rule.effects, words),
    because: withLabels(rule.because, words),
    evidence: rule.evidence,
    source: rule.source,
    since: rule.since,
    until: rule.until ?? null,
    yields_to: rule.yieldsTo,
  };
}

interface Wording {
  readonly subjects: Subjects;
  readonly style: FormatStyle;
}

function sayCondition(condition: Condition, words: Wording): SaidCondition {
  if ('test' in condition) return sayTest(condition.test, words);
  if ('not' in condition) return { lead: 'not', of: [sayCondition(condition.not, words)] };
  const [lead, parts] =
    'all' in condition
      ? (['all of these', condition.all] as const)
      : (['any of these', condition.any] as const);
  const [only, second] = parts;
  // A group of one says no more than the one.
  if (only !== undefined && second === undefined) return sayCondition(only, words);
  return { lead, of: parts.map((part) => sayCondition(part, words)) };
}

const sayOne = (subject: Subject, value: number | string | boolean, style: FormatStyle): string =>
  sayValue(
    {
      kind: subject.value,
      options: subject.options.map((option) => ({ ...option, anchors: {}, likelihood: undefined })),
      ordered: subject.ordered,
      unit: undefined,
      range: undefined,
    },
    value,
    style,
  );

function sayTest(test: Test, { subjects, style }: Wording): string {
  const subject = subjects.find(test.subject, test.id);
  const label = subject?.label ?? test.key;
  const about = test.subject === 'planned' ? `once the repair is done, ${label}` : label;
  const { operand } = test;
  const { words } = comparison(test.comparison);
  if (subject === undefined || operand === undefined) return `${about} ${words}`;
  if (typeof operand === 'boolean') {
    const yes = operand === (test.comparison === 'is');
    return `${about.replace(/^whether /, '')}: ${yes ? 'yes' : 'no'}`;
  }
  const joint = test.comparison === 'between' ? ' and ' : ' or ';
  const all = typeof operand === 'object' ? operand : [operand];
  return `${about} ${words} ${all.map((value) => sayOne(subject, value, style)).join(joint)}`;
}

const STANDS = { not_yet: 'not yet', refer: 'refer it to a specialist', decline: 'decline' } as const;

const DOINGS: Readonly<Record<Action, string>> = {
  keep: 'keep the unit as it is',
  restitch: 'restitch the unit',
  restuff: 'stuff the unit again',
  support: 'support the unit from behind',
  overlay: 'cover the unit with sheer cloth',
  patch_over: 'patch over the unit',
  replace: 'replace the unit',
  remove: 'remove the unit',
};
const isDoing = (action: string): action is Action => Object.hasOwn(DOINGS, action);

/** How each effect reads. One entry an effect. */
const EFFECTS: { readonly [K in EffectName]: (effect: NonNullable<Effects[K]>, words: Wording) => string } = {
  stand: (standing) => `the answer is: ${STANDS[standing]}`,
  refuseUse: (use, words) => `refuse the use: ${useLabel(use, words)}`,
  ruleOut: (target, words) => `rule out ${plans(target, words)}`,
  callFor: (tests, words) => `keep only ${plans(tests, words)}`,
  prefer: (target, words) => `prefer ${plans(target, words)}`,
  avoid: (target, words) => `avoid ${plans(target, words)} where there is another`,
  caution: (text, words) => `take care: ${withLabels(text, words)}`,
  cautionFirst: (text, words) => `say first: ${withLabels(text, words)}`,
  cautionHome: (text, words) => `take care at home: ${withLabels(text, words)}`,
  cautionWorkroom: (text, words) => `take care in the workroom: ${withLabels(text, words)}`,
  hazard: (hazard) => `it is a matter of ${hazard.replaceAll('_', ' ')}`,
  meanwhile: (text, words) => `do now: ${withLabels(text, words)}`,
  settledBy: (text, words) => `settled by: ${withLabels(text, words)}`,
  specialist: (text, words) => `ask others: ${withLabels(text, words)}`,
  ask: (text, words) => `ask first: ${withLabels(text, words)}`,
  condition: (text, words) => `on this condition: ${withLabels(text, words)}`,
  offer: (text, words) => `offer: ${withLabels(text, words)}`,
  action: (action) => (isDoing(action) ? DOINGS[action] : action),
};

function sayEffects(effects: Effects, words: Wording): string[] {
  const one = <K extends EffectName>(name: K): string[] => {
    const effect = effects[name];
    return effect === undefined || effect === null ? [] : [EFFECTS[name](effect, words)];
  };
  return (Object.keys(EFFECTS) as EffectName[]).flatMap(one);
}

const plans = (target: PlanTarget, words: Wording): string =>
  target === 'this plan'
    ? 'such a plan'
    : `plans where ${target.map((test) => sayTest(test, words)).join(', and ')}`;

const useLabel = (use: string, { subjects }: Wording): string =>
  subjects.find('finding', 'intended_use')?.options.find(({ value }) => value === use)?.label ?? use;

/** Where a case would put its own figure, the finding's label stands. */
const withLabels = (text: string, { subjects }: Wording): string =>
  fillPlaceholders(text, subjects, ({ label }) => `[${label}]`);

/** One earlier wording of a rule, in words. */
export interface SaidWording {
  readonly until: string;
  readonly reason: string;
  /** "when.all.0.at most: 5 %", a line each. */
  readonly changed: readonly string[];
}

/** How a rule came to be, the latest change first. */
export const sayHistory = (rule: Rule): SaidWording[] =>
  [...rule.was].reverse().map(({ until, reason, changed }) => ({
    until,
    reason,
    changed: Object.entries(changed).map(
      ([path, old]) => `${path}: ${old === null ? 'nothing' : sayOld(old)}`,
    ),
  }));

const sayOld = (old: unknown): string => (typeof old === 'string' ? old : JSON.stringify(old));
