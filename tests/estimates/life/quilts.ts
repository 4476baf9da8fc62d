import fc from 'fast-check';
import type {
  Kind,
  Pace,
  PlannedQuilt,
  QuiltEvidence,
  SeamShares,
} from '../../../src/estimates/life/model.ts';

/** Invented quilts as the forecast sees them, for laws and tables. */

export const NO_SEAMS = { seen: 0, thread: 0, cloth: 0, untold: 0 } as const;

export const kind = (grade: number, share = 1, counts: Partial<Kind> = {}): Kind => ({
  grades: { [grade]: 1 },
  share,
  seen: 0,
  worn: 0,
  untold: 0,
  ...counts,
});

export const quilt = (kinds: readonly Kind[], changes: Partial<QuiltEvidence> = {}): QuiltEvidence => ({
  wear: { known: 15 },
  kinds,
  seams: NO_SEAMS,
  units: 100,
  joins: 180,
  ...changes,
});

const LEFT: SeamShares = { left: 1, resewn: 0, mixed: 0, edge: 0, fresh: 0 };
const PLAIN = [1, 1, 1, 1, 1];

/** All of the quilt kept as it is, nothing open. */
export const kept = ({ kinds, joins }: QuiltEvidence, changes: Partial<PlannedQuilt> = {}): PlannedQuilt => ({
  parts: kinds.map(({ share }, i) => ({ name: `cloth ${i}`, kind: i, share, stretch: PLAIN })),
  fresh: 0,
  seams: joins > 0 ? LEFT : { ...LEFT, left: 0 },
  held: 1,
  sides: [],
  open: { cloth: 0, seams: 0 },
  ...changes,
});

export const pace = (rate = 1, alternatives: Pace['alternatives'] = [{ weight: 1, wear: 1 }]): Pace => ({
  rate,
  spread: 0.15,
  alternatives,
});

const count = (most: number): fc.Arbitrary<number> => fc.integer({ min: 0, max: most });

/** Counts that such a quilt might show: seldom more than a third of anything. */
const kinds: fc.Arbitrary<readonly Kind[]> = fc
  .array(
    fc.tuple(
      fc.integer({ min: 0, max: 4 }),
      fc.integer({ min: 1, max: 9 }),
      count(100),
      count(30),
      count(30),
    ),
    {
      minLength: 1,
      maxLength: 3,
    },
  )
  .map((drawn) => {
    const all = drawn.reduce((sum, [, part]) => sum + part, 0);
    return drawn.map(([grade, part, seen, worn, untold]) => {
      const own = Math.floor((seen * part) / all);
      return kind(grade, part / all, {
        seen: own,
        worn: Math.floor((own * worn) / 100),
        untold: Math.floor((own * untold) / 100),
      });
    });
  });

/** Random quilts: one to three kinds of cloth, seams inspected or not, a history told or not. */
export const quilts: fc.Arbitrary<QuiltEvidence> = fc
  .record({
    kinds,
    units: fc.integer({ min: 12, max: 400 }),
    joins: fc.integer({ min: 17, max: 800 }),
    inspected: count(300),
    thread: count(25),
    cloth: count(10),
    wear: fc.oneof(
      fc.double({ min: 4, max: 50, noNaN: true }).map((known) => ({ known })),
      fc
        .option(fc.integer({ min: 20, max: 150 }), { nil: undefined })
        .map((madeYearsAgo) => ({ madeYearsAgo })),
    ),
  })
  .map(({ kinds, units, joins, inspected, thread, cloth, wear }) => {
    const seen = Math.min(joins, inspected);
    const seams = {
      seen,
      thread: Math.floor((seen * thread) / 100),
      cloth: Math.floor((seen * cloth) / 100),
      untold: 0,
    };
    return quilt(kinds, { units, joins, seams, wear });
  });

export const rates: fc.Arbitrary<number> = fc.constantFrom(0.05, 0.16, 0.32, 1, 2.3);
