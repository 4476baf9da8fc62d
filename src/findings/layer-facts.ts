import { GRADES } from '../casebook/scales.ts';
import type { Figures } from '../figures/model.ts';
import { between, boundsOf, type Fact, isSpan, type Span } from './fact.ts';

type Stated = Readonly<Record<string, Fact>>;

/** Steps of the ordered findings on backing and batting, as findings.yaml names them. */
const BACKING = { none: 0, sound: 1, weak: 2, spent: 3 } as const;
const BATTING = { none: 0, even: 1, shifted: 2, spent: 3 } as const;

const [WEAK, FRAGILE] = [GRADES.indexOf('weak'), GRADES.indexOf('fragile')];

const within = (fact: Fact, unknown: Span): Span =>
  typeof fact === 'number' || isSpan(fact) ? boundsOf(fact) : unknown;

const stepped = (lo: number, hi: number, most: number): Fact => between(lo, hi, { min: 0, max: most });

/** From its grade and its damage: what the backing can still do; worse where either is worse. */
const backingState = (stated: Stated, spentFrom: number): Fact => {
  if (stated.backing_kind === 'none') return BACKING.none;
  const byGrade = (grade: number): number =>
    grade >= FRAGILE ? BACKING.spent : grade >= WEAK ? BACKING.weak : BACKING.sound;
  const byDamage = (share: number): number => (share > spentFrom ? BACKING.spent : BACKING.sound);
  const grade = within(stated.backing_fragility, { lo: 0, hi: GRADES.length - 1 });
  const damaged = within(stated.backing_damaged, { lo: 0, hi: 1 });
  const least = Math.max(byGrade(grade.lo), byDamage(damaged.lo));
  const most = Math.max(byGrade(grade.hi), byDamage(damaged.hi));
  return stepped(
    stated.backing_kind === 'own' ? least : Math.min(least, leastIfUnknown(least)),
    most,
    BACKING.spent,
  );
};

/** Where nobody said whether there is a layer, there may be none, unless something is known of it. */
const leastIfUnknown = (least: number): number => (least > 1 ? least : 0);

/** From how much of it has moved and whether it crumbles. */
const battingState = (stated: Stated, marks: { readonly shifted: number; readonly spent: number }): Fact => {
  const { batting_kind: kind, batting_crumbling: crumbling } = stated;
  if (kind === 'none') return BATTING.none;
  const byMoved = (share: number): number =>
    share > marks.spent ? BATTING.spent : share >= marks.shifted ? BATTING.shifted : BATTING.even;
  const moved = within(stated.batting_migrated, { lo: 0, hi: 1 });
  const least = crumbling === true ? BATTING.spent : byMoved(moved.lo);
  const most = crumbling === false ? byMoved(moved.hi) : BATTING.spent;
  return stepped(kind === undefined ? leastIfUnknown(least) : least, most, BATTING.spent);
};

/** Whether a measured share is more than nothing, or than a mark; unknown where it could be either. */
const moreThan = (fact: Fact, mark: number): boolean | undefined => {
  const { lo, hi } = within(fact, { lo: 0, hi: 1 });
  return lo > mark ? true : hi <= mark ? false : undefined;
};

const PIECES = ['loss', 'split_share', 'hole_share', 'edge_share', 'flattened_share'] as const;

/** What of it is open, torn or worn through: named by what is surely so, unknown where nothing is and something may be. */
const openDamage = (facts: Stated, wornThrough: number): Fact => {
  const bare = facts.backing_kind === 'none';
  const seams = moreThan(facts.join_failure, 0);
  const pieces = PIECES.map((id) => moreThan(facts[id], 0));
  const backing = bare ? false : moreThan(facts.backing_damaged, 0);
  // A top that was never backed was never bound.
  const edge = bare && facts.binding_worn === undefined ? false : moreThan(facts.binding_worn, wornThrough);
  const sure = [seams === true, pieces.includes(true), backing === true, edge === true];
  const [open, torn, back, worn] = sure;
  if (sure.filter(Boolean).length > 1) return open && torn && !back && !worn ? 'seams_and_pieces' : 'several';
  if (open) return 'seams';
  if (torn) return 'pieces';
  if (back) return 'backing';
  if (worn) return 'edge';
  return [seams, ...pieces, backing, edge].includes(undefined) ? undefined : 'none';
};

/** The state of what lies behind the top, and what of the quilt is open, from what was found of each. */
export const layerFacts = (facts: Stated, figures: Figures): Stated => ({
  backing_state: backingState(facts, figures.number('findings.backing_spent')),
  batting_state: battingState(facts, {
    shifted: figures.number('findings.batting_shifted'),
    spent: figures.number('findings.batting_spent'),
  }),
  open_damage: openDamage(facts, figures.number('findings.edge_worn_through')),
});
