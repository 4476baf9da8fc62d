import type { QuiltCase } from '../../casebook/model.ts';
import type { WouldChange } from '../answer-model.ts';
import type { CaseValue, Knob } from './knob.ts';
import { sameVerdict, type Trials, type Verdict } from './trials.ts';

/** One knob turned to one value. */
export interface Turn {
  readonly knob: Knob;
  readonly value: CaseValue;
}

export interface Flip {
  readonly turns: readonly Turn[];
  readonly verdict: Verdict;
}

/** Pairs are tried where no single change does it; this many at most, so that an answer never waits for long. */
const MOST_PAIRS = 150;
/** More than this nobody reads. */
const MOST_FOR_EACH = 4;

/**
 * The smallest changes that alter standing or treatment: one finding where one will do, else two. For a measure the
 * value is the nearest one that flips it: one step back does not.
 */
export function flips(quiltCase: QuiltCase, knobs: readonly Knob[], trials: Trials): Flip[] {
  const base = trials.answer(quiltCase);
  const known = knobs.filter((knob) => knob.current !== undefined);
  const single = known.flatMap((knob) => singleFlips(quiltCase, knob, base, trials));
  const found = single.length > 0 ? single : pairFlips(quiltCase, known, base, trials);
  const of = (who: Knob['who']): Flip[] =>
    found.filter(({ turns }) => whose(turns) === who).slice(0, MOST_FOR_EACH);
  return [...of('client'), ...of('re-check')];
}

function singleFlips(quiltCase: QuiltCase, knob: Knob, base: Verdict, trials: Trials): Flip[] {
  const tryOne = (value: CaseValue): Flip | undefined => {
    const verdict = trials.answer(knob.set(quiltCase, value));
    return sameVerdict(verdict, base) ? undefined : { turns: [{ knob, value }], verdict };
  };
  if (knob.scale === undefined) return knob.others.flatMap((value) => tryOne(value) ?? []);
  return [-1, 1].flatMap((direction) => nearest(knob, direction, tryOne) ?? []);
}

/** The nearest value in one direction that flips the answer, to the step a person would note. */
function nearest(
  knob: Knob,
  direction: number,
  tryOne: (value: CaseValue) => Flip | undefined,
): Flip | undefined {
  const { scale, current } = knob;
  if (scale === undefined || typeof current !== 'number') return undefined;
  const { step, min, max } = scale;
  const ahead = (steps: number): number =>
    Math.min(max, Math.max(min, round(current + direction * steps * step)));
  const end = Math.floor(Math.abs((direction < 0 ? min : max) - current) / step + 1e-9);
  // Doubling strides, and the rules' own marks, so that no flip is stepped over that a mark makes.
  const strides = new Set<number>([end]);
  for (let stride = 1; stride < end; stride *= 2) strides.add(stride);
  for (const mark of scale.marks) {
    const away = (direction * (mark - current)) / step;
    for (const steps of [Math.floor(away), Math.ceil(away), Math.floor(away) + 1])
      if (steps > 0 && steps <= end) strides.add(steps);
  }
  let before = 0;
  for (const steps of [...strides].filter((each) => each > 0).sort((a, b) => a - b)) {
    const flip = tryOne(ahead(steps));
    if (flip !== undefined) return tighten(before, steps, flip, (n) => tryOne(ahead(n)));
    before = steps;
  }
  return undefined;
}

/** Between a step that does not flip and one that does, the first that does. */
function tighten(not: number, does: number, found: Flip, tryAt: (steps: number) => Flip | undefined): Flip {
  let [low, high, best] = [not, does, found];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const flip = tryAt(middle);
    if (flip === undefined) low = middle;
    else [high, best] = [middle, flip];
  }
  return best;
}

const round = (value: number): number => Math.round(value * 1e6) / 1e6;

/** Two changes at once: those that alter something a rule reads, though not the answer, are combined. */
function pairFlips(quiltCase: QuiltCase, knobs: readonly Knob[], base: Verdict, trials: Trials): Flip[] {
  const cell = trials.cell(quiltCase);
  const turns = knobs.flatMap((knob) => knob.others.map((value): Turn => ({ knob, value })));
  const felt = turns.filter(({ knob, value }) => trials.cell(knob.set(quiltCase, value)) !== cell);
  const found: Flip[] = [];
  let tried = 0;
  for (const [index, first] of felt.entries()) {
    for (const second of felt.slice(index + 1)) {
      if (first.knob === second.knob) continue;
      tried += 1;
      if (tried > MOST_PAIRS) return found;
      const verdict = trials.answer(second.knob.set(first.knob.set(quiltCase, first.value), second.value));
      if (!sameVerdict(verdict, base)) found.push({ turns: [first, second], verdict });
    }
  }
  return found;
}

/** A pair is the client's to choose where both halves are. */
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
