import type { QuiltCase } from '../../casebook/model.ts';
import { type CheckNext, sameVerdict, type Verdict, type WouldChange } from '../answer-model.ts';
import { isGraver } from '../outcome.ts';
import type { CaseValue, Knob, Trials } from './variable.ts';

/** One knob turned to one value. */
export interface Turn {
  readonly knob: Knob;
  readonly value: CaseValue;
}

interface Flip {
  readonly turns: readonly Turn[];
  readonly verdict: Verdict;
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
export function flips(quiltCase: QuiltCase, knobs: readonly Knob[], trials: Trials): Flip[] {
  const base = trials.answer(quiltCase);
  const known = knobs.filter((knob) => knob.current !== undefined && knob.turns);
  const single = known.flatMap((knob) => singleFlips(quiltCase, knob, base, trials));
  const lacking = WHO.filter((who) => !single.some(({ turns }) => whose(turns) === who));
  const pairs =
    lacking.length === 0
      ? []
      : pairFlips(
          quiltCase,
          base,
          trials,
          known.filter(({ who }) => lacking.includes(who)),
        );
  const found = [...single, ...pairs];
  return WHO.flatMap((who) => found.filter(({ turns }) => whose(turns) === who).slice(0, MOST_FOR_EACH));
}

const WHO = ['client', 're-check'] as const;

function singleFlips(quiltCase: QuiltCase, knob: Knob, base: Verdict, trials: Trials): Flip[] {
  const tryOne = (value: CaseValue): Flip | undefined => {
    const verdict = trials.answer(knob.set(quiltCase, value));
    return sameVerdict(verdict, base) ? undefined : { turns: [{ knob, value }], verdict };
  };
  if (knob.scale === undefined) {
    const found = knob.others.flatMap((value) => tryOne(value) ?? []);
    // Nobody chooses what makes the answer graver; a use is another matter, because it is chosen for its own sake.
    const wished = knob.who === 'client' && typeof knob.current === 'boolean';
    return wished ? found.filter(({ verdict }) => !isGraver(verdict.standing, base.standing)) : found;
  }
  return [-1, 1].flatMap((direction) => nearest(knob, direction, tryOne) ?? []);
}

type Try = (value: CaseValue) => Flip | undefined;

/** The nearest value in one direction that flips the answer, to the step a person would note. */
function nearest(knob: Knob, direction: number, tryOne: Try): Flip | undefined {
  const { scale, current } = knob;
  if (scale === undefined || typeof current !== 'number') return undefined;
  const { step, min, max } = scale;
  const ahead = (steps: number): number =>
    Math.min(max, Math.max(min, round(current + direction * steps * step)));
  const end = Math.floor(Math.abs((direction < 0 ? min : max) - current) / step + 1e-9);
  let before = 0;
  for (const steps of strides(knob, direction, end)) {
    if (tryOne(ahead(steps)) !== undefined)
      return tryOne(ahead(firstFlip(before, steps, (n) => tryOne(ahead(n)))));
    before = steps;
  }
  return undefined;
}

/** Doubling strides, and the rules' own marks, so that no flip is stepped over that a mark makes. */
function strides({ scale, current }: Knob, direction: number, end: number): number[] {
  const all = new Set<number>([end]);
  for (let stride = 1; stride < end; stride *= 2) all.add(stride);
  for (const mark of scale?.marks ?? []) {
    const away = (direction * (mark - Number(current))) / (scale?.step ?? 1);
    for (const steps of [Math.floor(away), Math.ceil(away), Math.floor(away) + 1]) all.add(steps);
  }
  return [...all].filter((steps) => steps > 0 && steps <= end).sort((a, b) => a - b);
}

/** Between a number of steps that does not flip and one that does, the first that does. */
function firstFlip(not: number, does: number, tryAt: (steps: number) => Flip | undefined): number {
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
function pairFlips(quiltCase: QuiltCase, base: Verdict, trials: Trials, knobs: readonly Knob[]): Flip[] {
  const sides = trials.sides(quiltCase);
  const turns = knobs.flatMap((knob) => knob.others.map((value): Turn => ({ knob, value })));
  const felt = turns.filter(({ knob, value }) => {
    const variant = knob.set(quiltCase, value);
    return trials.sides(variant) !== sides && sameVerdict(trials.answer(variant), base);
  });
  const found: Flip[] = [];
  let tried = 0;
  for (const [index, first] of felt.entries()) {
    for (const second of felt.slice(index + 1)) {
      const pair = [first, second];
      if (first.knob === second.knob || first.knob.who !== second.knob.who) continue;
      tried += 1;
      if (tried > MOST_PAIRS) return found;
      const both = second.knob.set(first.knob.set(quiltCase, first.value), second.value);
      const verdict = trials.answer(both);
      if (sameVerdict(verdict, base)) continue;
      // Nobody wishes for what makes the answer graver.
      const wished = first.knob.who === 'client';
      if (!wished || !isGraver(verdict.standing, base.standing)) found.push({ turns: pair, verdict });
    }
  }
  return found;
}

/** Both halves of a pair are of one kind. */
const whose = (turns: readonly Turn[]): Knob['who'] =>
  turns.every(({ knob }) => knob.who === 'client') ? 'client' : 're-check';

export const wouldChange = (flip: Flip): WouldChange => ({
  changes: flip.turns.map(({ knob, value }) => ({
    finding: knob.id,
    label: knob.label,
    from: knob.current === undefined ? 'not known' : knob.say(knob.current),
    to: knob.say(value),
  })),
  standing: flip.verdict.standing,
  treatment: flip.verdict.treatment,
  who: whose(flip.turns),
});

/**
 * What is worth finding out: each unknown with the answers it could lead to, safety first, then the one with most power
 * over the answer, the cheaper first among equals. Empty where nothing that could still be found out changes it.
 */
export function checkNext(quiltCase: QuiltCase, knobs: readonly Knob[], trials: Trials): CheckNext[] {
  const base = trials.answer(quiltCase);
  const asked = knobs
    .filter((knob) => knob.current === undefined)
    .map((knob) => {
      const leads = knob.likely.map(({ value, weight }) => ({
        value,
        weight,
        verdict: trials.answer(knob.set(quiltCase, value)),
      }));
      const changing = leads.filter(({ verdict }) => !sameVerdict(verdict, base));
      return { knob, changing, power: changing.reduce((sum, { weight }) => sum + weight, 0) };
    });
  return asked
    .filter(({ power }) => power > 0)
    .sort(
      (a, b) =>
        Number(b.knob.safety) - Number(a.knob.safety) ||
        b.power - a.power ||
        a.knob.cost - b.knob.cost ||
        (a.knob.id < b.knob.id ? -1 : 1),
    )
    .map(({ knob, changing, power }) => ({
      finding: knob.id,
      label: knob.label,
      how: knob.how,
      power: Math.round(power * 1000) / 1000,
      could_lead_to: changing.map(({ value, verdict }) => ({
        value: knob.say(value),
        standing: verdict.standing,
        treatment: verdict.treatment,
      })),
    }));
}
