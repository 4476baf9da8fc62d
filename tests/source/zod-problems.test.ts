import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { say } from '../../src/source/quote.ts';
import { readYaml } from '../../src/source/read-yaml.ts';
import { zodProblems } from '../../src/source/zod-messages.ts';

const thread = z.strictObject({
  fibre: z.enum(['cotton', 'silk', 'polyester']),
  weight: z.number().min(8).max(200),
  plies: z.int().optional(),
  length: z
    .string()
    .transform((text, context) =>
      text.endsWith('in')
        ? Number.parseFloat(text)
        : say(context, { code: 'bad-quantity', what: `"${text}" has no unit` }),
    )
    .optional(),
});
const basket = z.strictObject({
  threads: z.array(thread).min(1),
  boxes: z.record(z.string().regex(/^[a-z]+$/), thread).optional(),
  note: z.union([z.string(), z.strictObject({ text: z.string() })]).optional(),
});

const found = (text: string): string[] => {
  const read = readYaml('b.yaml', text);
  if ('problems' in read) throw new Error('unreadable');
  const result = basket.safeParse(read.source.value);
  if (result.success) return [];
  return zodProblems(result.error, read.source, { schema: basket }).map(
    ({ place, code, what, didYouMean }) =>
      `${place?.line}:${place?.column}+${place?.length} ${code}: ${what}${didYouMean ? ` (${didYouMean})` : ''}`,
  );
};

describe('what zod found, in words and with places', () => {
  it('marks an unknown name itself and offers the near one', () => {
    expect(found('threads:\n  - { fibre: silk, wieght: 50, weight: 50 }\n')).toEqual([
      '2:20+6 unknown-key: "wieght" is not known under threads (weight)',
    ]);
    expect(found('treads: []\nthreads: [{ fibre: silk, weight: 50 }]\n')).toEqual([
      '1:1+6 unknown-key: "treads" is not known at the top of the file (threads)',
    ]);
  });

  it('lists near choices for a bad option', () => {
    expect(found('threads: [{ fibre: slik, weight: 50 }]')).toEqual([
      '1:20+4 not-an-option: "slik" is not one of the choices for fibre (silk)',
    ]);
  });

  it('points a missing name at its parent', () => {
    expect(found('threads:\n  - { fibre: silk }\n')).toEqual(['2:5+15 missing-key: weight is missing']);
    expect(found('note: x\n')).toEqual(['1:1+1 missing-key: threads is missing']);
  });

  it('tells kinds apart in plain words', () => {
    expect(found('threads: [{ fibre: silk, weight: heavy, plies: 2.5 }]')).toEqual([
      '1:34+5 wrong-kind: weight wants a number, not "heavy"',
      '1:48+3 wrong-kind: plies wants a whole number, not 2.5',
    ]);
    expect(found('threads: none')).toEqual(['1:10+4 wrong-kind: threads wants a list, not "none"']);
    expect(found('threads: [{ fibre: silk, weight: 3 }]')).toEqual([
      '1:34+1 out-of-range: weight is 3; it must be at least 8',
    ]);
  });

  it('passes on what a check of our own says', () => {
    expect(found('threads: [{ fibre: silk, weight: 50, length: 5 }]')).toEqual([
      '1:46+1 wrong-kind: length wants a word, not 5',
    ]);
    expect(found('threads: [{ fibre: silk, weight: 50, length: 5 m }]')).toEqual([
      '1:46+3 bad-quantity: "5 m" has no unit',
    ]);
  });

  it('follows records and the branch of a union that was meant', () => {
    expect(
      found('threads: [{ fibre: silk, weight: 50 }]\nboxes:\n  a: { fibre: wool, weight: 9 }\n'),
    ).toEqual(['3:15+4 not-an-option: "wool" is not one of the choices for fibre']);
    expect(found('threads: [{ fibre: silk, weight: 50 }]\nnote: { text: 5 }\n')).toEqual([
      '2:15+1 wrong-kind: text wants a word, not 5',
    ]);
    expect(found('threads: [{ fibre: silk, weight: 50 }]\nnote: 5\n')).toEqual([
      '2:7+1 wrong-kind: note wants a word or a group of lines, not 5',
    ]);
  });

  it('counts paths from where the checked part stands', () => {
    const read = readYaml('b.yaml', 'inner:\n  threads: [{ fibre: silk, weight: 50, colr: red }]\n');
    if ('problems' in read) throw new Error('unreadable');
    const inner = (read.source.value as { inner: unknown }).inner;
    const result = basket.safeParse(inner);
    const problems = result.error
      ? zodProblems(result.error, read.source, { base: ['inner'], schema: basket })
      : [];
    expect(problems.map(({ place }) => [place?.line, place?.column])).toEqual([[2, 40]]);
    expect(problems[0]?.cure).toBe('Use one of fibre, weight, plies, length, or remove the line.');
  });
});
