import { describe, expect, it } from 'vitest';
import { readCase } from '../../src/casebook/read-case.ts';
import { decide } from '../../src/decision/decide.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { AS_OF, practice, shipped } from '../decision/shipped.ts';
import { skeletonOf } from '../tools/skeleton/skeleton.ts';

describe('the smallest case of a rule', () => {
  it('reads, and the rule is among the reasons of its answer', async () => {
    const rule = shipped.rulebook.rules.find(({ id }) => id === 'more-new-than-old');
    if (rule === undefined) throw new Error('no such rule');
    const { text, reached } = skeletonOf(rule, { knowledge: shipped, practice });
    expect(reached).toBe(true);
    const read = readCase(`${rule.id}.yaml`, text, findingReader(shipped.vocabulary));
    if (read.case === undefined) throw new Error(JSON.stringify(read.problems));
    const { answer } = await decide(read.case, { knowledge: shipped, practice, day: AS_OF });
    expect(answer.reasons.map((reason) => reason.rule)).toContain('more-new-than-old');
    expect(answer.standing).toBe('decline');
  });
});
