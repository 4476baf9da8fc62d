/** The fragility scale, best first. A grade's index is its value in facts. */
export const GRADES = ['sound', 'worn', 'weak', 'fragile', 'failing'] as const;
export type Grade = (typeof GRADES)[number];

/** Intended uses, gentlest first; infant sleep stands apart because it is refused, not graded. */
export const USES = ['storage', 'display', 'guest_bed', 'regular_bed', 'child_bed', 'infant_sleep'] as const;
export type Use = (typeof USES)[number];

/** States a unit can be found in, with the mark the map uses for each. */
export const UNIT_STATES = {
  sound: '.',
  worn: 'w',
  edge: 'e',
  split: 's',
  hole: 'h',
  lost: 'x',
  missing: '-',
  stained: 't',
  bled: 'b',
  repaired: 'p',
  flattened: 'f',
  unseen: '?',
} as const;
export type UnitState = keyof typeof UNIT_STATES;

/** States in which a unit is damaged, so that something did it; an earlier repair tells of damage then. */
export const DAMAGED_STATES: ReadonlySet<UnitState> = new Set([
  'lost',
  'missing',
  'hole',
  'split',
  'repaired',
]);

/** What can have done damage. */
export const CAUSES = ['wear', 'washing', 'light', 'accident', 'animals', 'insects'] as const;
export type Cause = (typeof CAUSES)[number];
/** Where a unit bears several marks, the gravest stands on the map and is what it counts as; gravest first here. */
export const GRAVEST_FIRST: readonly UnitState[] = [
  'lost',
  'hole',
  'split',
  'edge',
  'flattened',
  'worn',
  'repaired',
  'bled',
  'stained',
];

/** What can be done with one unit, least first: where two rules ask for different things, the later one here holds. */
export const ACTIONS = [
  'keep',
  'restitch',
  'restuff',
  'support',
  'overlay',
  'patch_over',
  'replace',
  'remove',
] as const;
export type Action = (typeof ACTIONS)[number];

/** What can harm people or other textiles, as `treated:` in a case file and `hazard:` in a stop rule name it. */
export const HAZARDS = [
  'mould',
  'damp',
  'insects',
  'rodent_waste',
  'sewage_or_fuel',
  'poison',
  'smell',
] as const;
export type Hazard = (typeof HAZARDS)[number];

/** What a test or a treatment leaves: nothing that can harm, or the hazard itself. */
export const FOUND_OUTCOMES = ['harmless', 'present'] as const;

export const TREATMENTS = ['leave', 'reassemble', 'backing', 'tie', 'lines'] as const;
export type Treatment = (typeof TREATMENTS)[number];

/** Kinds of damage as a client tells them in a first message, each in the words a client would use. */
export const TOLD_DAMAGE = {
  open_seams: 'seams that have come open',
  torn: 'torn or split cloth',
  holes: 'holes, or cloth that is gone',
  worn_edge: 'a worn edge',
  filling: 'filling that has moved or comes out',
  stained: 'stains, or colours that ran',
  none: 'nothing that can be seen',
} as const;

export type ToldDamage = keyof typeof TOLD_DAMAGE;

/** How much of the quilt that is, by the client's account. */
export const TOLD_EXTENT = {
  few: 'a few places',
  some: 'up to a quarter of it',
  much: 'more than a quarter of it',
} as const;

export type ToldExtent = keyof typeof TOLD_EXTENT;
