import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Family, QuiltCase, Survey } from '../../src/casebook/model.ts';
import { ACTIONS, type Action, GRADES, UNIT_STATES, type UnitState } from '../../src/casebook/scales.ts';
import { type Fact, type Facts, isSpan } from '../../src/findings/fact.ts';
import type { UnitGroup } from '../../src/findings/surveyed.ts';
import { FULL } from '../tiers.ts';
import { family, found, planned, sketch, surveyed } from './quilts.ts';

const RUNS = FULL ? 3000 : 150;
const STATES: readonly UnitState[] = (Object.keys(UNIT_STATES) as UnitState[]).filter(
  (state) => state !== 'unseen',
);

/** A quilt of which everything is known: state and fabric of every place, and the grade of every fabric. */
interface Hidden {
  readonly states: readonly (readonly UnitState[])[];
  readonly fabrics: readonly (readonly string[])[];
  readonly grades: Readonly<Record<string, (typeof GRADES)[number]>>;
}

const hidden: fc.Arbitrary<Hidden> = fc
  .tuple(fc.integer({ min: 2, max: 5 }), fc.integer({ min: 2, max: 6 }))
  .chain(([rows, columns]) => {
    const map = <T>(cell: fc.Arbitrary<T>) =>
      fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
        minLength: rows,
        maxLength: rows,
      });
    const state = fc.oneof(
      { weight: 5, arbitrary: fc.constant<UnitState>('sound') },
      { weight: 3, arbitrary: fc.constantFrom(...STATES) },
    );
    const grade = fc.constantFrom(...GRADES);
    return fc.record({
      states: map(state),
      fabrics: map(fc.constantFrom('A', 'A', 'B', 'C')),
      grades: fc.record({ A: grade, B: grade, C: grade }),
    });
  });

/** What of a quilt somebody wrote down, and in which form. */
interface Form {
  readonly states: 'map' | 'counts';
  readonly fabrics: 'map' | 'shares';
  readonly lost: 'by fabric' | 'not by fabric';
  /** Blocks of several pieces: shares then do not say that a block is of one fabric, though here each one is. */
  readonly blocks?: 'of several pieces';
}

const FORMS: readonly Form[] = (['map', 'counts'] as const).flatMap((states) =>
  (['map', 'shares'] as const).flatMap((fabrics) =>
    (['by fabric', 'not by fabric'] as const).map((lost): Form => ({ states, fabrics, lost })),
  ),
);
const IN_BLOCKS: readonly Form[] = FORMS.filter(({ fabrics }) => fabrics === 'shares').map((form) => ({
  ...form,
  blocks: 'of several pieces',
}));
const ALL: Form = { states: 'map', fabrics: 'map', lost: 'by fabric' };

function told({ states, fabrics, grades }: Hidden, form: Form): QuiltCase {
  const all = fabrics.flat();
  const marks = states.flat();
  const letters = [...new Set(all)].sort();
  const families = Object.fromEntries(
    letters.map((letter): [string, Family] => {
      const count = all.filter((each) => each === letter).length;
      const lost = marks.filter((state, index) => state === 'lost' && all[index] === letter).length;
      return [
        letter,
        family(grades[letter] ?? 'sound', {
          ...(form.fabrics === 'shares' ? { share: count / all.length } : {}),
          ...(form.lost === 'by fabric' ? { lost } : {}),
        }),
      ];
    }),
  );
  const counted = Object.fromEntries(
    STATES.filter((state) => state !== 'sound').map((state) => [
      state,
      marks.filter((each) => each === state).length,
    ]),
  );
  const survey: Partial<Survey> = {
    families,
    ...(form.states === 'map' ? { units: states } : { counts: { of: marks.length, ...counted } }),
    ...(form.fabrics === 'map' ? { family_map: fabrics } : {}),
  };
  const [rows, columns] = [states.length, states[0]?.length ?? 0];
  const finished = { width: 10, height: 10 };
  const blocks = { kind: 'edge to edge', rows, columns, finished, pieces_per_unit: 4 } as const;
  return sketch({ rows, columns, survey, ...(form.blocks && { quilt: { layout: blocks } }) });
}

const EPSILON = 1e-9;

/** Whether a fact leaves room for what is true; unknown leaves room for everything. */
const leavesRoom = (fact: Fact, truth: Fact): boolean => {
  if (fact === undefined) return true;
  if (isSpan(fact) && isSpan(truth)) return fact.lo <= truth.lo + EPSILON && fact.hi >= truth.hi - EPSILON;
  if (isSpan(fact))
    return typeof truth === 'number' && fact.lo <= truth + EPSILON && fact.hi >= truth - EPSILON;
  if (typeof fact === 'number' && typeof truth === 'number') return Math.abs(fact - truth) <= EPSILON;
  return fact === truth;
};

/** Facts that say something else than the quilt that is known whole. `mapped` says which form it was told in. */
const contradicting = (facts: Facts, truth: Facts): string[] =>
  Object.keys(truth).filter((key) => !key.endsWith('.mapped') && !leavesRoom(facts[key], truth[key]));

/** Something to be done with each state and fabric, whichever way the quilt is told. */
const acting =
  (picks: readonly Action[], byFabric: boolean) =>
  ({ state, family: letter = 'A' }: UnitGroup): Action =>
    picks[(STATES.indexOf(state) * 3 + (byFabric ? 'ABC'.indexOf(letter) : 0)) % picks.length] ?? 'keep';

const actions = fc.array(fc.constantFrom(...ACTIONS), { minLength: 5, maxLength: 11 });
const nameOf = ({ states, fabrics, lost, blocks }: Form): string =>
  `${states} of states, ${fabrics} of fabrics, lost ${lost}, blocks ${blocks ?? 'of one piece'}`;

describe('one quilt, told in every form', () => {
  it.each([...FORMS, ...IN_BLOCKS].map((form) => ({ name: nameOf(form), form })))(
    '$name: no fact, as found or as planned, shuts out what is true',
    ({ form }) => {
      fc.assert(
        fc.property(hidden, actions, (quilt, picks) => {
          const [part, whole] = [told(quilt, form), told(quilt, ALL)];
          expect(contradicting(found(part), found(whole))).toEqual([]);
          // Blocks of many fabrics are treated as they are found, whatever they are of.
          const choose = acting(picks, form.blocks === undefined);
          expect(contradicting(planned(part, choose), planned(whole, choose))).toEqual([]);
        }),
        { numRuns: RUNS },
      );
    },
  );

  it.each(FORMS.map((form) => ({ name: nameOf(form), form })))(
    '$name: as many of every state and of every fabric as there are',
    ({ form }) => {
      fc.assert(
        fc.property(hidden, (quilt) => {
          const { groups } = surveyed(told(quilt, form));
          const count = (wanted: (group: UnitGroup) => boolean): number =>
            groups.filter(wanted).reduce((sum, group) => sum + group.count, 0);
          for (const state of STATES)
            expect(
              count((group) => group.state === state),
              state,
            ).toBe(quilt.states.flat().filter((each) => each === state).length);
          for (const letter of 'ABC')
            expect(
              count((group) => group.family === letter),
              letter,
            ).toBe(quilt.fabrics.flat().filter((each) => each === letter).length);
          // Nobody is said to have more or fewer than all statements together allow.
          for (const { share, least, most } of groups) {
            expect(share).toBeGreaterThanOrEqual(least);
            expect(share).toBeLessThanOrEqual(most);
          }
        }),
        { numRuns: RUNS },
      );
    },
  );

  it('shows every place of a map in the state it was found in, whoever’s fabric lies there', () => {
    fc.assert(
      fc.property(
        hidden,
        fc.constantFrom(...FORMS.filter(({ states }) => states === 'map')),
        (quilt, form) => {
          const { groups, piecework } = surveyed(told(quilt, form));
          const at = new Map(groups.flatMap(({ state, where = [] }) => where.map((place) => [place, state])));
          expect(piecework.units.map((unit) => at.get(unit.at))).toEqual(quilt.states.flat());
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('is known more closely where more is told', () => {
    const more = (form: Form): readonly Form[] => [
      { ...form, states: 'map' },
      { ...form, fabrics: 'map' },
      { ...form, lost: 'by fabric' },
    ];
    fc.assert(
      fc.property(hidden, fc.constantFrom(...FORMS), (quilt, form) => {
        for (const closer of more(form))
          expect(contradicting(found(told(quilt, form)), found(told(quilt, closer))), nameOf(closer)).toEqual(
            [],
          );
      }),
      { numRuns: RUNS },
    );
  });

  it('would be found out if a lost unit were booked as sound', () => {
    const quilt: Hidden = {
      states: [
        ['lost', 'sound', 'sound'],
        ['sound', 'sound', 'sound'],
      ],
      fabrics: [
        ['A', 'A', 'B'],
        ['B', 'C', 'A'],
      ],
      grades: { A: 'sound', B: 'worn', C: 'weak' },
    };
    const whole = found(told(quilt, ALL));
    const vanished: Hidden = { ...quilt, states: quilt.states.map((row) => row.map(() => 'sound')) };
    for (const form of FORMS) {
      const missed = contradicting(found(told(vanished, form)), whole);
      expect(missed, nameOf(form)).toEqual(
        expect.arrayContaining(['finding.loss', 'finding.worst_family_loss']),
      );
    }
  });
});
