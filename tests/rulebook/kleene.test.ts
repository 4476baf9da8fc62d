import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Fact, type Facts, isSpan } from '../../src/findings/fact.ts';
import { evaluateCondition, evaluateRule, trace } from '../../src/rulebook/evaluate.ts';
import { and, not, or, type Truth } from '../../src/rulebook/kleene.ts';
import { facts, NUMBER_KEYS, rule, step, WORD_KEYS } from '../arbitraries/rules.ts';

const TRUTHS: readonly Truth[] = [true, false, undefined];
const pairs = TRUTHS.flatMap((a) => TRUTHS.map((b) => [a, b] as const));
const triples = pairs.flatMap(([a, b]) => TRUTHS.map((c) => [a, b, c] as const));

/** Strong three-valued logic: S. C. Kleene, Introduction to Metamathematics (1952), section 64, tables from memory. */
describe('three values', () => {
  it.each<[Truth, Truth, Truth, Truth]>([
    [true, true, true, true],
    [true, false, false, true],
    [true, undefined, undefined, true],
    [false, false, false, false],
    [false, undefined, false, undefined],
    [undefined, undefined, undefined, undefined],
  ])('%s with %s: and gives %s, or gives %s', (a, b, both, either) => {
    expect([and([a, b]), and([b, a])]).toEqual([both, both]);
    expect([or([a, b]), or([b, a])]).toEqual([either, either]);
  });

  it('turn round under "not", and "not known" stays not known', () => {
    expect(TRUTHS.map(not)).toEqual([false, true, undefined]);
  });

  it('obey De Morgan, associativity, distribution and absorption', () => {
    for (const [a, b, c] of triples) {
      expect(not(and([a, b]))).toBe(or([not(a), not(b)]));
      expect(and([a, and([b, c])])).toBe(and([a, b, c]));
      expect(or([or([a, b]), c])).toBe(or([a, b, c]));
      expect(and([a, or([b, c])])).toBe(or([and([a, b]), and([a, c])]));
      expect(or([a, and([a, b])])).toBe(a);
      expect(not(not(a))).toBe(a);
    }
  });

  it('do not know the excluded middle: a thing not known may be neither', () => {
    expect(or([undefined, not(undefined)])).toBeUndefined();
  });
});

describe('folding a condition', () => {
  it('gives the verdict of its trace, and asks of every part', () => {
    fc.assert(
      fc.property(rule(true), fc.array(fc.constantFrom(...TRUTHS), { minLength: 1 }), (each, answers) => {
        const asked = new Set<number>();
        const read = ({ leaf }: { leaf: number }): Truth => {
          asked.add(leaf);
          return answers[leaf % answers.length];
        };
        const whole = trace(each.when, read);
        expect(asked.size).toBe(each.tests.length);
        expect(evaluateCondition(each.when, read)).toBe(whole.truth);
      }),
      { numRuns: 2000 },
    );
  });

  it('never changes a settled verdict when one leaf more is settled', () => {
    fc.assert(
      fc.property(
        rule(true),
        fc.array(fc.constantFrom(...TRUTHS), { minLength: 1 }),
        fc.nat(),
        fc.boolean(),
        (each, answers, at, settled) => {
          const before = evaluateCondition(each.when, ({ leaf }) => answers[leaf % answers.length]);
          const which = at % each.tests.length;
          const after = evaluateCondition(each.when, ({ leaf }) =>
            leaf === which && answers[leaf % answers.length] === undefined
              ? settled
              : answers[leaf % answers.length],
          );
          if (before !== undefined) expect(after).toBe(before);
        },
      ),
      { numRuns: 3000 },
    );
  });
});

/** One fact learned better: a value within its bounds, narrower bounds, or anything where nothing was known. */
const sharper = (fact: Fact, key: string, pick: number): Fact => {
  if (fact === undefined) {
    if (NUMBER_KEYS.some((each) => each === key)) return pick % 7;
    return WORD_KEYS.some((each) => each === key) ? ['tie', 'lines', 'leave'][pick % 3] : pick % 2 === 0;
  }
  if (!isSpan(fact)) return fact;
  const inside = fact.lo + (pick % (fact.hi - fact.lo + 1));
  return pick % 2 === 0 ? inside : inside === fact.hi ? fact.hi : { lo: inside, hi: fact.hi };
};

describe('learning', () => {
  it('never contradicts what was certain, for rules that do not ask whether a thing is known', () => {
    fc.assert(
      fc.property(
        rule(false),
        facts,
        fc.array(step, { minLength: 7, maxLength: 7 }),
        (each, known, picks) => {
          const before = evaluateRule(each, known);
          if (before === undefined) return;
          const learned: Facts = Object.fromEntries(
            Object.entries(known).map(([key, fact], index) => [key, sharper(fact, key, picks[index] ?? 0)]),
          );
          expect(evaluateRule(each, learned)).toBe(before);
        },
      ),
      { numRuns: 5000 },
    );
  });

  it('settles every rule once everything is known', () => {
    fc.assert(
      fc.property(rule(false), facts, step, (each, known, pick) => {
        const all: Facts = Object.fromEntries(
          Object.entries(known).map(([key, fact]) => [
            key,
            isSpan(fact) ? fact.lo : sharper(fact, key, pick),
          ]),
        );
        expect(evaluateRule(each, all)).toBeTypeOf('boolean');
      }),
      { numRuns: 2000 },
    );
  });
});
