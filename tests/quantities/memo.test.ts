import { describe, expect, it, vi } from 'vitest';
import { memo } from '../../src/quantities/memo.ts';

interface Given {
  readonly a: object;
  readonly b?: number;
}

const counted = (most: number) => {
  const work = vi.fn(({ a, b }: Given) => ({ a, b }));
  return { work, kept: memo(most, work) };
};

describe('what is kept', () => {
  it('is given again for the same objects and values, in whatever record they come', () => {
    const { work, kept } = counted(2);
    const a = {};
    expect(kept({ a, b: 1 })).toBe(kept({ a, b: 1 }));
    expect(work).toHaveBeenCalledTimes(1);
  });

  it('is worked out anew where any field is another, or is there and was not', () => {
    const { kept } = counted(9);
    const a = {};
    const first = kept({ a, b: 1 });
    expect(kept({ a, b: 2 })).not.toBe(first);
    expect(kept({ a: {}, b: 1 })).not.toBe(first);
    expect(kept({ a })).not.toBe(first);
    const bare = kept({ a });
    expect(kept({ a, b: 0 })).not.toBe(bare);
    expect(kept({ a, b: 1 })).toBe(first);
  });

  it('makes room by what was asked for longest ago', () => {
    const { work, kept } = counted(2);
    const [one, two, three] = [{}, {}, {}];
    for (const a of [one, two, one, three]) kept({ a });
    expect(work).toHaveBeenCalledTimes(3);
    kept({ a: one });
    expect(work).toHaveBeenCalledTimes(3);
    kept({ a: two });
    expect(work).toHaveBeenCalledTimes(4);
  });

  it('is nothing where the work failed', () => {
    let failing = true;
    const kept = memo(2, (_: Given) => {
      if (failing) throw new Error('no figures');
      return 'done';
    });
    const a = {};
    expect(() => kept({ a })).toThrow('no figures');
    failing = false;
    expect(kept({ a })).toBe('done');
  });
});
