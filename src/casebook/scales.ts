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

export const TREATMENTS = ['leave', 'reassemble', 'backing', 'tie', 'lines'] as const;
export type Treatment = (typeof TREATMENTS)[number];
