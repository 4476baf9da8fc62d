import { describe, expect, it } from 'vitest';
import { readCase } from '../../src/casebook/read-case.ts';
import { decideQuick } from '../../src/decision/decide.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { context } from './shipped.ts';

/** A first message: what the client told, and nothing that anybody saw. */
const told = (
  more = '',
  client = 'intended_use: guest_bed, damage: [torn, holes], damage_extent: much',
) => `mendwise: 1
case: told
client: { ${client} }
quilt: { size: { width: 72 in, height: 80 in } }
survey:
  seen: photos
${more}`;

const answerTo = (text: string) => {
  const { case: quiltCase, problems } = readCase(
    'told.yaml',
    text,
    findingReader(context.knowledge.vocabulary),
  );
  if (quiltCase === undefined) throw new Error(problems.map(({ what }) => what).join('; '));
  return decideQuick(quiltCase, context).answer;
};

describe('a quilt that nobody has looked over', () => {
  it('is not told to be left, whatever damage was told or not asked for', () => {
    for (const client of [
      'intended_use: guest_bed, damage: [torn, holes], damage_extent: much',
      'intended_use: storage',
    ]) {
      const answer = answerTo(told('', client));
      expect(answer).toMatchObject({ standing: 'not_yet', treatment: null, plan: null, estimates: null });
      expect(answer.reasons.map(({ rule }) => rule)).toContain('nobody-has-looked-yet');
      expect(answer.conditions.map(({ rule }) => rule)).toContain('nobody-has-looked-yet');
    }
  });

  it('is still declined or stopped at once for what was told', () => {
    expect(answerTo(told('  findings: { mould_area: 60 in2 }\n')).safety.stops).not.toEqual([]);
    expect(answerTo(told('', 'intended_use: infant_sleep')).refused_uses).toEqual(['infant_sleep']);
  });

  it.each([
    ['pictures told of its pieces', '  counts: { of: 64, lost: 3 }\n'],
    ['pictures told of its seams', '  joins: { inspected: 40, open: 2 }\n'],
    ['pictures told of a fabric', '  families: { A: { fragility: worn } }\n'],
  ])('is answered as any other once %s', (_, more) => {
    expect(answerTo(told(more)).reasons.map(({ rule }) => rule)).not.toContain('nobody-has-looked-yet');
  });
});
