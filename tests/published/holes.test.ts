import { describe, expect, it } from 'vitest';
import { pinsFor, threadFor } from '../../src/estimates/holes/basting.ts';
import { machineNeedle, perforation, STITCHES } from '../../src/estimates/holes/stitches.ts';
import { layOut } from '../../src/piecework/lay-out.ts';
import { stitchingOf } from '../../src/piecework/patterns.ts';

describe('needles', () => {
  it.each([
    // schmetzneedles.com/pages/needle-size-designations: the metric number is the blade in 1/100 mm
    [80, 0.8],
    [130, 1.3],
    [75, 0.75],
  ])('number metric %d has a blade of %d mm', (metric, mm) => {
    expect(machineNeedle(metric)).toBeCloseTo(mm, 12);
  });
});

// Common practice, no source; geometry.
describe('holes of one stitch, in each layer', () => {
  it('are two an inch for each running stitch counted on top', () => {
    expect(STITCHES.running.ground(8)).toBe(16);
  });

  it.each([
    [2.0, 12.7],
    [2.5, 10.2],
    [3.0, 8.5],
    [3.5, 7.3],
    [4.0, 6.3], // 6.35, cut off rather than rounded where it was printed
  ])('are 25.4 ÷ the stitch for a straight machine stitch of %d mm', (mm, perInch) => {
    expect(Math.abs(STITCHES['machine straight'].ground(mm) - perInch)).toBeLessThan(0.051);
  });

  it('are 10.16 an inch at 2.5 mm', () => {
    // jackasscharmsoap.com, stitch size for machine quilting: 25.4 ÷ 2.5
    expect(STITCHES['machine straight'].ground(2.5)).toBeCloseTo(10.16, 12);
  });

  it.each([
    [1.0, 25.4],
    [1.5, 16.9],
  ])('are 25.4 ÷ the length for a zigzag of %d mm, half on each side', (mm, perInch) => {
    expect(STITCHES.zigzag.ground(mm)).toBeCloseTo(perInch, 1);
    expect(STITCHES.zigzag.rows).toBe(2);
  });

  it('are one a whip stitch in each cloth', () => {
    expect([STITCHES.whip.ground(9), STITCHES.whip.upper(9)]).toEqual([9, 9]);
  });

  it('are about eight an inch in each fold for a ladder of ⅛ in rungs', () => {
    expect(STITCHES.ladder.ground(1 / 8)).toBe(8);
  });

  it('are two in the ground and one in the patch for an appliqué stitch', () => {
    expect([STITCHES['appliqué blind'].ground(11), STITCHES['appliqué blind'].upper(11)]).toEqual([22, 11]);
  });

  it('are two or four a tie, two a pin, none a clip, about one an inch of thread basting', () => {
    expect([STITCHES.tie.ground(1), STITCHES.tie.ground(2)]).toEqual([2, 4]);
    expect([STITCHES.pin.ground(1), STITCHES.clip.ground(1)]).toEqual([2, 0]);
    expect(STITCHES['thread basting'].ground(1 + 1)).toBe(1);
  });
});

// Common practice, no source; geometry: an 80 × 80 in quilt of 64 blocks of 10 in, top layer.
describe('ways of joining one quilt, compared', () => {
  const size = { width: 80, height: 80 };
  const blocks = layOut({ kind: 'edge to edge', rows: 8, columns: 8 }, size);
  const cells = layOut({ kind: 'survey grid', rows: 20, columns: 20 }, size);
  const ditch = stitchingOf(blocks, 'lines', 'every seam', 'both');
  const tied = (points: number): readonly number[] =>
    [1, 2].map((passes) => points * STITCHES.tie.ground(passes));
  const machine = (mm: number): number => Math.round(ditch * STITCHES['machine straight'].ground(mm));

  it('ties: 98–196 at the corners, 226–452 with the centres, 722–1,444 on a 4 in grid', () => {
    expect(tied(stitchingOf(blocks, 'ties', 'every crossing', 'both'))).toEqual([98, 196]);
    expect(tied(stitchingOf(blocks, 'ties', 'crossings and centres', 'both'))).toEqual([226, 452]);
    expect(tied(stitchingOf(cells, 'ties', 'every crossing', 'both'))).toEqual([722, 1444]);
  });

  it('machine lines in the ditch: 9,483 at 3.0 mm, 11,379 at 2.5 mm', () => {
    expect(ditch).toBe(1120);
    expect([machine(3), machine(2.5)]).toEqual([9483, 11379]);
  });

  it('hand lines in the ditch: 11,200 at five an inch, 17,920 at eight', () => {
    expect([5, 8].map((stitches) => ditch * STITCHES.running.ground(stitches))).toEqual([11200, 17920]);
  });

  it('all-over machine quilting: 32,500–52,000', () => {
    const holes = [0.5, 0.8].map((line) => line * 6400 * STITCHES['machine straight'].ground(2.5));
    expect(holes.map((each) => Math.round(each / 500) * 500)).toEqual([32500, 52000]);
  });

  it('basting at 4 in: 882 by pins, 1,680 by thread one way and 3,360 both ways', () => {
    expect(pinsFor(size, 4) * STITCHES.pin.ground(1)).toBe(882);
    const thread = ([1, 2] as const).map(
      (ways) => threadFor(size, 4, ways) * STITCHES['thread basting'].ground(2),
    );
    expect(thread).toEqual([1680, 3360]);
  });
});

// Common practice, no source; geometry.
describe('share of a line taken by holes', () => {
  it.each([
    ['running', 8, 0.46, 29],
    ['machine straight', 2.0, machineNeedle(80), 40],
    ['machine straight', 2.5, machineNeedle(75), 30],
    ['machine straight', 3.0, machineNeedle(70), 23],
    ['zigzag', 1.0, machineNeedle(80), 40],
    ['zigzag', 0.5, machineNeedle(80), 80],
  ] as const)('is, for %s at %d with a needle of %d mm, %d %%', (kind, setting, needle, percent) => {
    expect(Math.round(perforation(kind, setting, needle) * 100)).toBe(percent);
  });
});
