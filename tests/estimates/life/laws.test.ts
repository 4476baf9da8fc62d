import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Kind, Pace, PlannedQuilt, QuiltEvidence } from '../../../src/estimates/life/model.ts';
import { type LifePrior, lifePrior } from '../../../src/estimates/life/prior.ts';
import { type LifeModel, lifeModel, type Years } from '../../../src/estimates/life/remaining-life.ts';
import { FULL } from '../../tiers.ts';
import { kept, kind, NO_SEAMS, pace, quilt, quilts, rates } from './quilts.ts';
import { shippedFigures } from './shipped-figures.ts';

/*
 * Laws over random quilts. Each is held by the model as shipped, and a planted fault beside it shows that the law can
 * fail: figures, or a plan, that a careless hand might write.
 */

const prior = lifePrior(shippedFigures());
const model = lifeModel(prior);
const RUNS = { numRuns: FULL ? 400 : 100, seed: 20261129 };
/** The sums are close, not exact. */
const SLACK = 1.01;

const ENDS = ['low', 'middle', 'high'] as const;
const all = (years: Years): readonly number[] => ENDS.map((end) => years[end]);

function neverLonger(harder: Years, softer: Years, slack = SLACK): void {
  for (const end of ENDS) expect(harder[end], end).toBeLessThanOrEqual(softer[end] * slack + 1e-6);
}

function within(a: Years, b: Years, share: number): void {
  for (const end of ENDS) {
    if (Math.max(a[end], b[end]) === 0) continue;
    expect(Math.abs(Math.log(Math.max(a[end], 1e-3) / Math.max(b[end], 1e-3))), end).toBeLessThan(
      Math.log(1 + share),
    );
  }
}

/** Runs a law on one broken quilt or model and expects it to be caught. */
const caught = (law: () => void): void => expect(law).toThrow();

describe('one quilt', () => {
  const split = (
    one: QuiltEvidence,
  ): { readonly evidence: QuiltEvidence; readonly planned: PlannedQuilt } => {
    // one part laid on the top as three, with a fifth, a third and the rest of its cloth
    const whole = kept(one);
    const parts = whole.parts.flatMap((part) =>
      [0.2, 1 / 3, 1 - 0.2 - 1 / 3].map((share) => ({ ...part, share: part.share * share })),
    );
    return { evidence: one, planned: { ...whole, parts } };
  };

  it('lasts as long however its cloth is named apart', () => {
    fc.assert(
      fc.property(quilts, rates, (one, rate) => {
        const { evidence, planned } = split(one);
        within(
          model.forecast(evidence, planned, pace(rate)),
          model.forecast(one, kept(one), pace(rate)),
          0.02,
        );
      }),
      RUNS,
    );
  });

  it('would not if parts were counted by their number: a planted fault', () => {
    const one = quilt([kind(1)]);
    const { planned } = split(one);
    const faulty = { ...planned, parts: planned.parts.map((part) => ({ ...part, share: 1 })) };
    caught(() => within(model.forecast(one, faulty, pace()), model.forecast(one, kept(one), pace()), 0.02));
  });

  // x lost of A and y of B, one of them moved: of 200 units, 20 % at the most.
  const moved = (lost: number): readonly [Years, Years] => {
    const of = (inA: number): QuiltEvidence =>
      quilt([kind(1, 0.5, { seen: 100, worn: inA }), kind(0, 0.5, { seen: 100, worn: lost - inA })], {
        units: 200,
        joins: 370,
      });
    const half = Math.ceil(lost / 2);
    const [here, there] = [of(half), of(half - 1)];
    return [model.forecast(here, kept(here), pace()), model.forecast(there, kept(there), pace())];
  };

  it('hardly notices one lost unit of 200 that belongs to another fabric', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), (lost) => {
        within(...moved(lost), 0.2);
      }),
      RUNS,
    );
  });

  it('would notice if one unit moved were counted as thirty: a planted fault', () => {
    caught(() => {
      const [one, thirty] = [1, 30].map((worn) => {
        const each = quilt([kind(1, 0.5, { seen: 100, worn }), kind(0, 0.5, { seen: 100 })], {
          units: 200,
          joins: 370,
        });
        return model.forecast(each, kept(each), pace());
      }) as [Years, Years];
      within(thirty, one, 0.2);
    });
  });
});

describe('what is harder', () => {
  const wearing = (one: QuiltEvidence, changes: Partial<Pace>): Years =>
    model.forecast(one, kept(one), { ...pace(), ...changes });

  it('a harder use never lengthens the years', () => {
    fc.assert(
      fc.property(quilts, rates, fc.double({ min: 1, max: 5, noNaN: true }), (one, rate, harder) => {
        neverLonger(wearing(one, { rate: rate * harder }), wearing(one, { rate }), 1.001);
      }),
      RUNS,
    );
    caught(() => neverLonger(wearing(quilt([kind(1)]), { rate: 1 }), wearing(quilt([kind(1)]), { rate: 2 })));
  });

  /** Ungraded evidence aside: the same quilt, one kind of it graded a grade worse. */
  const worse = (one: QuiltEvidence, which: number): QuiltEvidence => ({
    ...one,
    kinds: one.kinds.map((each, i): Kind => {
      const grade = Number(Object.keys(each.grades)[0]);
      return i === which % one.kinds.length ? { ...each, grades: { [Math.min(4, grade + 1)]: 1 } } : each;
    }),
  });
  const uninspected = (one: QuiltEvidence): QuiltEvidence => ({
    ...one,
    seams: NO_SEAMS,
    kinds: one.kinds.map((each) => ({ ...each, seen: 0, worn: 0, untold: 0 })),
  });

  const grading = (with_: LifeModel, one: QuiltEvidence, which: number): void => {
    const down = worse(one, which);
    // how closely the count keeps to its mean changes with the grades, so that the ends are no law
    const [weaker, stronger] = [down, one].map((each) => with_.forecast(each, kept(each), pace())) as [
      Years,
      Years,
    ];
    expect(weaker.middle).toBeLessThanOrEqual(stronger.middle * SLACK + 1e-6);
  };

  it('a weaker grade never lengthens them', () => {
    fc.assert(
      fc.property(quilts, fc.nat(2), (one, which) => grading(model, uninspected(one), which)),
      { ...RUNS, numRuns: Math.min(200, RUNS.numRuns) },
    );
    const upsideDown = lifeModel({ ...prior, cloth: [...prior.cloth].reverse() });
    caught(() => grading(upsideDown, quilt([kind(1)]), 0));
  });

  // Longer runs found these two, still to be mended; refined twice they stay, so they are the model's and not the sums'.
  it('misses two of these laws by a little, and no more than is known', () => {
    const middle = (one: QuiltEvidence): number => model.forecast(one, kept(one), pace()).middle;
    const parts = (grade: number): QuiltEvidence =>
      quilt([kind(2, 0.2), kind(0, 0.2), kind(grade, 0.6)], {
        wear: { madeYearsAgo: undefined },
        units: 131,
        joins: 460,
      });
    // weaker cloth is damaged in more of its parts at once, so that their count keeps closer to its mean
    expect(middle(parts(1)) / middle(parts(0))).toBeLessThan(1.011);
    const opened = { seen: 65, thread: 13, cloth: 0, untold: 0 };
    const [short, long] = [5, 40].map((known) =>
      middle(quilt([kind(0)], { wear: { known }, units: 12, joins: 65, seams: opened })),
    );
    expect((long ?? 0) / (short ?? 1)).toBeLessThan(2.04);
  });

  const torn = (of: (count: number) => number, one: QuiltEvidence, more: number): void => {
    const seams = { seen: 100, thread: 4, cloth: 2, untold: 0 };
    const [longer, shorter] = [2, 2 + more].map((cloth) => {
      const each = { ...one, joins: 180, seams: { ...seams, cloth: of(cloth) } };
      return model.forecast(each, kept(each), pace());
    }) as [Years, Years];
    expect(shorter.middle).toBeLessThanOrEqual(longer.middle * SLACK + 1e-6);
  };

  it('more seams torn by cloth never lengthen them, where the history is told', () => {
    fc.assert(
      fc.property(quilts, fc.integer({ min: 1, max: 40 }), (one, more) =>
        torn((count) => count, 'known' in one.wear ? one : { ...one, wear: { known: 15 } }, more),
      ),
      RUNS,
    );
    // a fault: what was whole counted as torn
    caught(() => torn((count) => 50 - count, quilt([kind(1)]), 40));
  });

  /** Survived longer with the same damage: evidence of strength, but no more than double over all plausible histories. */
  const histories = (with_: LifeModel, one: QuiltEvidence): void => {
    const middles = [5, 10, 20, 40].map((known) => {
      const told = { ...one, wear: { known } };
      return with_.forecast(told, kept(told), pace()).middle;
    });
    const [first] = middles;
    expect(Math.max(...middles) / (first ?? 1)).toBeLessThanOrEqual(2);
  };

  it('a longer history at the same inspection lifts them by no more than double', () => {
    fc.assert(
      fc.property(quilts, (one) => histories(model, one)),
      { ...RUNS, numRuns: Math.min(50, RUNS.numRuns) },
    );
    const loose = lifeModel({ ...prior, differs: { ...prior.differs, cloth: 2, thread: 2 } });
    caught(() =>
      histories(
        loose,
        quilt([kind(1, 1, { seen: 100, worn: 5 })], { seams: { seen: 180, thread: 9, cloth: 1, untold: 0 } }),
      ),
    );
  });
});

describe('mending', () => {
  const open = fc.record({
    cloth: fc.double({ min: 0, max: 0.2, noNaN: true }),
    seams: fc.double({ min: 0, max: 0.3, noNaN: true }),
  });
  const leaving = (one: QuiltEvidence, left: PlannedQuilt['open']): PlannedQuilt => {
    const whole = kept(one);
    return { ...whole, open: left, seams: { ...whole.seams, left: 0.8, edge: 0.2 } };
  };
  const mending = (one: QuiltEvidence, fresh: number): PlannedQuilt => {
    const whole = kept(one);
    return {
      ...whole,
      parts: whole.parts.map((part) => ({ ...part, share: part.share * (1 - fresh) })),
      fresh,
      seams: { left: 0.5, resewn: 0.3, mixed: 0.2, edge: 0, fresh: 0 },
    };
  };

  it('is never forecast less than leaving alone, and what is left open never lengthens the years', () => {
    fc.assert(
      fc.property(
        quilts,
        rates,
        open,
        fc.double({ min: 0, max: 0.3, noNaN: true }),
        (one, rate, left, fresh) => {
          const own = pace(rate);
          const alone = model.forecast(one, leaving(one, left), own);
          neverLonger(alone, model.forecast(one, mending(one, fresh), own), 1.001);
          neverLonger(
            alone,
            model.forecast(one, leaving(one, { cloth: left.cloth / 2, seams: left.seams / 2 }), own),
            1.001,
          );
        },
      ),
      RUNS,
    );
    // a fault: what is left open shrinks, as if quilts healed
    const healing = lifeModel({ ...prior, openGrows: -1 });
    const one = quilt([kind(1)]);
    const harsh = { ...mending(one, 0.1), open: { cloth: 0.1, seams: 0.1 } };
    caught(() => neverLonger(healing.forecast(one, kept(one), pace()), model.forecast(one, harsh, pace())));
  });

  it('is due now where more is left open than the mark', () => {
    const one = quilt([kind(1)]);
    expect(all(model.forecast(one, leaving(one, { cloth: 0.12, seams: 0 }), pace()))).toEqual([0, 0, 0]);
    expect(model.forecast(one, leaving(one, { cloth: 0.01, seams: 0 }), pace()).low).toBeGreaterThan(0);
  });

  it('by lines spares the seams more than by ties, ties more than tacks, tacks more than nothing', () => {
    fc.assert(
      fc.property(quilts, rates, (one, rate) => {
        const years = [1, 0.9, 0.8, 0.7, 0.4].map((held) =>
          model.forecast(one, kept(one, { held }), pace(rate)),
        );
        for (const [i, more] of years.slice(1).entries()) neverLonger(years[i] ?? more, more, 1.001);
      }),
      RUNS,
    );
    const one = quilt([kind(1)]);
    caught(() =>
      neverLonger(
        model.forecast(one, kept(one, { held: 0.4 }), pace()),
        model.forecast(one, kept(one), pace()),
      ),
    );
  });

  it('with a support under weak cloth never shortens them', () => {
    const stretched = (one: QuiltEvidence, by: number): PlannedQuilt => {
      const whole = kept(one);
      return { ...whole, parts: whole.parts.map((part) => ({ ...part, stretch: [1, 1, by, by, by] })) };
    };
    fc.assert(
      fc.property(quilts, rates, (one, rate) => {
        neverLonger(
          model.forecast(one, kept(one), pace(rate)),
          model.forecast(one, stretched(one, 1.5), pace(rate)),
          1.001,
        );
      }),
      RUNS,
    );
    const weak = quilt([kind(2)]);
    caught(() =>
      neverLonger(
        model.forecast(weak, kept(weak), pace()),
        model.forecast(weak, stretched(weak, 0.5), pace()),
      ),
    );
  });
});

describe('what is not known', () => {
  const GRADES = { 0: 0.26, 1: 0.37, 2: 0.23, 3: 0.14 };
  const width = ({ low, high }: Years): number => Math.log(high / low);

  const mixes = (ways: Pace['alternatives'], one: QuiltEvidence, rate: number): void => {
    const mixed = model.forecast(one, kept(one), pace(rate, ways));
    const apart = ways.map(({ wear }) => model.forecast(one, kept(one), pace(rate, [{ weight: 1, wear }])));
    for (const end of ENDS) {
      expect(mixed[end], end).toBeLessThanOrEqual(Math.max(...apart.map((each) => each[end])) * 1.001);
      expect(mixed[end], end).toBeGreaterThanOrEqual(Math.min(...apart.map((each) => each[end])) / 1.001);
    }
    if (mixed.high >= 50 || apart.some(({ high }) => high >= 50)) return;
    expect(width(mixed)).toBeGreaterThanOrEqual(Math.min(...apart.map(width)) - 0.01);
  };

  it('lies between what it could be, and is no narrower', () => {
    fc.assert(
      fc.property(
        quilts,
        rates,
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        fc.double({ min: 1, max: 3, noNaN: true }),
        (one, rate, weight, wear) => {
          mixes(
            [
              { weight, wear: 1 },
              { weight: 1 - weight, wear },
            ],
            one,
            rate,
          );
        },
      ),
      RUNS,
    );
    // a fault: the good case taken for granted, and more than that
    caught(() => {
      const one = quilt([kind(1)]);
      const good = model.forecast(one, kept(one), pace(0.5));
      const mixed = model.forecast(
        one,
        kept(one),
        pace(1, [
          { weight: 0.5, wear: 1 },
          { weight: 0.5, wear: 2 },
        ]),
      );
      expect(good.middle).toBeLessThanOrEqual(mixed.middle);
    });
  });

  it('an unknown grade widens the range, and never does better than the best it may be', () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 40, noNaN: true }), (known) => {
        const of = (grades: Kind['grades']): Years => {
          const one = quilt([{ ...kind(1), grades }], { wear: { known } });
          return model.forecast(one, kept(one), pace());
        };
        const unknown = of(GRADES);
        for (const grade of [0, 1, 2, 3]) expect(width(unknown)).toBeGreaterThan(width(of({ [grade]: 1 })));
        neverLonger(unknown, of({ 0: 1 }));
        neverLonger(of({ 3: 1 }), unknown);
      }),
      { ...RUNS, numRuns: RUNS.numRuns / 10 },
    );
  });
});

describe('an accident', () => {
  /** Units that an accident took leave both counts; mended, the quilt is as it was. */
  const accident = (share: number, told: boolean): readonly [Years, Years] => {
    const before = quilt([kind(1, 1, { seen: 100, worn: 3 })]);
    const taken = Math.round(100 * share);
    const after = quilt([kind(1, 1, told ? { seen: 100 - taken, worn: 3 } : { seen: 100, worn: 3 + taken })]);
    return [model.forecast(before, kept(before), pace()), model.forecast(after, kept(after), pace())];
  };

  it('leaves the years as they were before it, once mended', () => {
    for (const share of [0.02, 0.05, 0.12]) within(...accident(share, true), 0.02);
  });

  it('would not if it were counted as wear: a planted fault', () => {
    caught(() => within(...accident(0.12, false), 0.02));
  });
});

describe('the sums', () => {
  const twice = (with_: (fineness: number) => LifeModel, one: QuiltEvidence, rate: number): void => {
    const [plain, finer] = [1, 2].map((fineness) => with_(fineness).forecast(one, kept(one), pace(rate)));
    if (plain === undefined || finer === undefined) throw new Error('no forecast');
    for (const end of ENDS) expect(Math.abs(plain[end] / finer[end] - 1), end).toBeLessThan(0.01);
  };
  const models = new Map<number, LifeModel>();
  const shipped = (fineness: number): LifeModel => {
    const known = models.get(fineness) ?? lifeModel(prior, fineness);
    models.set(fineness, known);
    return known;
  };

  it('are fine enough: refined twice, no figure moves by 1 %', { timeout: 600_000 }, () => {
    fc.assert(
      fc.property(quilts, rates, (one, rate) => twice(shipped, one, rate)),
      { ...RUNS, numRuns: FULL ? 100 : 12 },
    );
  });

  it('would not be on a coarse grid: a planted fault', () => {
    const coarse = (fineness: number): LifeModel => lifeModel(prior, fineness === 1 ? 0.4 : 1);
    caught(() => twice(coarse, quilt([kind(1)]), 1));
  });

  const shape = (one: LifePrior): readonly number[] => [one.power, one.share];
  it('keep percentiles in order', () => {
    expect(shape(prior)).toEqual([4, 0.05]);
    fc.assert(
      fc.property(quilts, rates, (one, rate) => {
        const { low, middle, high } = model.forecast(one, kept(one), pace(rate));
        expect(low).toBeLessThanOrEqual(middle);
        expect(middle).toBeLessThanOrEqual(high);
      }),
      { ...RUNS, numRuns: RUNS.numRuns / 4 },
    );
  });
});
