import type { QuiltCase } from '../../casebook/model.ts';
import {
  type CheckNext,
  type Recommendation,
  sameRecommendation,
  type WouldChange,
} from '../answer-model.ts';
import { isGraver } from '../outcome.ts';
import type { CaseValue, Variable, VariantEvaluator } from './variable.ts';

/** One variable turned to one value. */
export interface Change {
  readonly variable: Variable;
  readonly value: CaseValue;
}

interface Counterfactual {
  readonly turns: readonly Change[];
  readonly verdict: Recommendation;
}

/** Pairs tried at most, so that an answer never waits for long. */
const MOST_PAIRS = 80;
/** More than this nobody reads. */
const MOST_FOR_EACH = 4;

/**
 * The smallest changes that alter standing or treatment, for the client to choose and for a helper to look at again:
 * one finding where one will do, else two. For a measure the value is the nearest one that flips it: one step back
 * does not.
 */
export function findCounterfactuals(
  quiltCase: QuiltCase,
  variables: readonly Variable[],
  variants: VariantEvaluator,
): Counterfactual[] {
  const base = variants.answer(quiltCase);
  const known = variables.filter((variable) => variable.current !== undefined && variable.turns);
  const single = known.flatMap((variable) => singleFlips(quiltCase, variable, base, variants));
  const lacking = WHO.filter((who) => !single.some(({ turns }) => whose(turns) === who));
  const pairs =
    lacking.length === 0
      ? []
      : pairFlips(
          quiltCase,
          base,
          variants,
          known.filter(({ who }) => lacking.includes(who)),
        );
  const found = [...single, ...pairs];
  return WHO.flatMap((who) => found.filter(({ turns }) => whose(turns) === who).slice(0, MOST_FOR_EACH));
}

const WHO = ['client', 're-check'] as const;

function singleFlips(
  quiltCase: QuiltCase,
  variable: Variable,
  base: Recommendation,
  variants: VariantEvaluator,
): Counterfactual[] {
  const tryOne = (value: CaseValue): Counterfactual | undefined => {
    const verdict = variants.answer(variable.set(quiltCase, value));
    return sameRecommendation(verdict, base) ? undefined : { turns: [{ variable, value }], verdict };
  };
  if (variable.scale === undefined) {
    const found = variable.others.flatMap((value) => tryOne(value) ?? []);
    // Nobody chooses what makes the answer graver; a use is another matter, because it is chosen for its own sake.
    const wished = variable.who === 'client' && typeof variable.current === 'boolean';
    return wished ? found.filter(({ verdict }) => !isGraver(verdict.standing, base.standing)) : found;
  }
  return [-1, 1].flatMap((direction) => nearest(variable, direction, tryOne) ?? []);
}

type Try = (value: CaseValue) => Counterfactual | undefined;

/** The nearest value in one direction that flips the answer, to the step a person would note. */
function nearest(variable: Variable, direction: number, tryOne: Try): Counterfactual | undefined {
  const { scale, current } = variable;
  if (scale === undefined || typeof current !== 'number') return undefined;
  const { step, min, max } = scale;
  const ahead = (steps: number): number =>
    Math.min(max, Math.max(min, round(current + direction * steps * step)));
  const end = Math.floor(Math.abs((direction < 0 ? min : max) - current) / step + 1e-9);
  let before = 0;
  for (const steps of strides(variable, direction, end)) {
    if (tryOne(ahead(steps)) !== undefined)
      return tryOne(ahead(firstFlip(before, steps, (n) => tryOne(ahead(n)))));
    before = steps;
  }
  return undefined;
}

/** Doubling strides, and the rules' own marks, so that no flip is stepped over that a mark makes. */
function strides({ scale, current }: Variable, direction: number, end: number): number[] {
  const all = new Set<number>([end]);
  for (let stride = 1; stride < end; stride *= 2) all.add(stride);
  for (const mark of scale?.marks ?? []) {
    const away = (direction * (mark - Number(current))) / (scale?.step ?? 1);
    for (const steps of [Math.floor(away), Math.ceil(away), Math.floor(away) + 1]) all.add(steps);
  }
  return [...all].filter((steps) => steps > 0 && steps <= end).sort((a, b) => a - b);
}

/** Between a number of steps that does not flip and one that does, the first that does. */
function firstFlip(not: number, does: number, tryAt: (steps: number) => Counterfactual | undefined): number {
  let [low, high] = [not, does];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (tryAt(middle) === undefined) low = middle;
    else high = middle;
  }
  return high;
}

const round = (value: number): number => Math.round(value * 1e6) / 1e6;

/**
 * Two changes at once, for those who have no single one: turns that alter something a rule reads, though not the
 * answer, are combined; what the client chooses is not mixed with what a second look may find.
 */
function pairFlips(
  quiltCase: QuiltCase,
  base: Recommendation,
  variants: VariantEvaluator,
  variables: readonly Variable[],
): Counterfactual[] {
  const sides = variants.sides(quiltCase);
  const turns = variables.flatMap((variable) =>
    variable.others.map((value): Change => ({ variable, value })),
  );
  const felt = turns.filter(({ variable, value }) => {
    const variant = variable.set(quiltCase, value);
    return variants.sides(variant) !== sides && sameRecommendation(variants.answer(variant), base);
  });
  const found: Counterfactual[] = [];
  let tried = 0;
  for (const [index, first] of felt.entries()) {
    for (const second of felt.slice(index + 1)) {
      const pair = [first, second];
      if (first.variable === second.variable || first.variable.who !== second.variable.who) continue;
      tried += 1;
      if (tried > MOST_PAIRS) return found;
      const both = second.variable.set(first.variable.set(quiltCase, first.value), second.value);
      const verdict = variants.answer(both);
      if (sameRecommendation(verdict, base)) continue;
      // Nobody wishes for what makes the answer graver.
      const wished = first.variable.who === 'client';
      if (!wished || !isGraver(verdict.standing, base.standing)) found.push({ turns: pair, verdict });
    }
  }
  return found;
}

/** Both halves of a pair are of one kind. */
const whose = (turns: readonly Change[]): Variable['who'] =>
  turns.every(({ variable }) => variable.who === 'client') ? 'client' : 're-check';

export const wouldChange = (flip: Counterfactual): WouldChange => ({
  changes: flip.turns.map(({ variable, value }) => ({
    finding: variable.id,
    label: variable.label,
    from: variable.current === undefined ? 'not known' : variable.say(variable.current),
    to: variable.say(value),
  })),
  standing: flip.verdict.standing,
  treatment: flip.verdict.treatment,
  who: whose(flip.turns),
});

/**
 * What is worth finding out: each unknown with the answers it could lead to, safety first, then the one with most power
 * over the answer, the cheaper first among equals. Empty where nothing that could still be found out changes it.
 */
export function checkNext(
  quiltCase: QuiltCase,
  variables: readonly Variable[],
  variants: VariantEvaluator,
): CheckNext[] {
  const base = variants.answer(quiltCase);
  const asked = variables
    .filter((variable) => variable.current === undefined)
    .map((variable) => {
      const leads = variable.likely.map(({ value, weight }) => ({
        value,
        weight,
        verdict: variants.answer(variable.set(quiltCase, value)),
      }));
      const changing = leads.filter(({ verdict }) => !sameRecommendation(verdict, base));
      return { variable, changing, power: changing.reduce((sum, { weight }) => sum + weight, 0) };
    });
  return asked
    .filter(({ power }) => power > 0)
    .sort(
      (a, b) =>
        Number(b.variable.safety) - Number(a.variable.safety) ||
        b.power - a.power ||
        a.variable.cost - b.variable.cost ||
        (a.variable.id < b.variable.id ? -1 : 1),
    )
    .map(({ variable, changing, power }) => ({
      finding: variable.id,
      label: variable.label,
      how: variable.how,
      power: Math.round(power * 1000) / 1000,
      could_lead_to: changing.map(({ value, verdict }) => ({
        value: variable.say(value),
        standing: verdict.standing,
        treatment: verdict.treatment,
      })),
    }));
}
