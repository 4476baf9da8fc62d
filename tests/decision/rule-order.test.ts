import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decide } from '../../src/decision/decide.ts';
import type { Rulebook } from '../../src/rulebook/model.ts';
import { written } from '../arbitraries/cases.ts';
import { AS_OF, caseFrom, knowledgeWith, practice, shipped, shippedCase } from './shipped.ts';

/** Rules of a file in another order; what stands before the first rule stays there. */
function shuffled(text: string, keys: readonly number[]): string {
  const [head = '', ...rules] = text.split(/^(?=- rule: )/m);
  const order = rules.map((rule, index) => ({
    rule: `${rule.trimEnd()}\n\n`,
    key: keys[index % keys.length] ?? 0,
  }));
  return (
    head +
    order
      .sort((a, b) => a.key - b.key)
      .map(({ rule }) => rule)
      .join('')
  );
}

const inAnotherOrder = (keys: readonly number[]) =>
  knowledgeWith((text, name) => (/^(stages|units)/.test(name) ? shuffled(text, keys) : text));

/** A rulebook without the places where its rules happen to stand. */
const withoutPlaces = ({ rules }: Rulebook): unknown =>
  JSON.parse(
    JSON.stringify(rules, (key, value: unknown) => (/^(place|yieldsAt)$/.test(key) ? undefined : value)),
  );

const keys = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 60, maxLength: 60 });

describe('the order of rules in their files', () => {
  it('means nothing to the rulebook', () => {
    const wanted = withoutPlaces(shipped.rulebook);
    let moved = 0;
    fc.assert(
      fc.property(keys, (order) => {
        const other = inAnotherOrder(order);
        expect(withoutPlaces(other.rulebook)).toEqual(wanted);
        if (other.rulebook.digest !== shipped.rulebook.digest) moved += 1;
      }),
      { numRuns: 5 },
    );
    // The files did change: otherwise this would show nothing.
    expect(moved).toBeGreaterThan(0);
  });

  it('changes no byte of an answer', async () => {
    const bytes = async (knowledge: typeof shipped, quiltCase: Parameters<typeof decide>[0]) => {
      const { answer } = await decide(quiltCase, { knowledge, practice, day: AS_OF });
      return JSON.stringify({ ...answer, rulebook: answer.rulebook.version });
    };
    const other = inAnotherOrder([7, 3, 9, 1, 8, 2, 6, 0, 5, 4, 11, 10]);
    const some = [
      shippedCase('breakwater-squares.yaml'),
      shippedCase('winter-suiting-comfort.yaml'),
      ...fc.sample(written, { numRuns: 2, seed: 11 }).map(caseFrom),
    ];
    for (const each of some) expect(await bytes(other, each)).toBe(await bytes(shipped, each));
  });
});
