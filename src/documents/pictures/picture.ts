import type { VNode } from 'preact';
import { type Action, UNIT_STATES, type UnitState } from '../../casebook/scales.ts';
import type { Hatch } from './hatch.tsx';

/** One mark of a picture's key: how it looks, the letter it bears, and what it means. */
interface KeyEntry {
  readonly swatch: VNode;
  /** Stands for the swatch where there are no pictures. */
  readonly mark: string;
  readonly words: string;
}

/** How many units of each kind a drawing or a list shows, and of what: the quilt as found, or a plan by its name. */
export interface Tally {
  readonly of: string;
  readonly counts: Readonly<Record<string, number>>;
}

/** A drawing with everything said in words that it shows. */
export interface Picture {
  readonly id: string;
  readonly title: string;
  /** What it shows, for whoever cannot see it. */
  readonly description: string;
  readonly svg: VNode;
  readonly key: readonly KeyEntry[];
  /** The same in letters, a line each, for Markdown and plain text; empty where the description says it all. */
  readonly plain: readonly string[];
  /** What it counts, to be held against the other counts of the paper; absent where it shows no units, or not all. */
  readonly tally?: Tally;
}

/** How one state or action is drawn, and what a client reads beside it. */
export interface Look {
  readonly letter: string;
  readonly hatch: Hatch;
  readonly words: string;
}

const look = (state: UnitState, hatch: Hatch, words: string): Look => ({
  letter: state === 'sound' ? '' : UNIT_STATES[state],
  hatch,
  words,
});

/** States as found, least harm first. Marks are those of the case file's map, to the letter. */
export const STATE_LOOKS: Readonly<Record<UnitState, Look>> = {
  sound: look('sound', 'plain', 'no damage seen'),
  worn: look('worn', 'dots', 'worn'),
  edge: look('edge', 'dashes', 'edge frayed'),
  split: look('split', 'upright', 'split'),
  hole: look('hole', 'rings', 'with holes'),
  lost: look('lost', 'net', 'lost'),
  missing: look('missing', 'shade', 'missing'),
  stained: look('stained', 'falling', 'stained'),
  bled: look('bled', 'waves', 'colour has run'),
  repaired: look('repaired', 'pluses', 'repaired before'),
  flattened: look('flattened', 'level', 'gone flat'),
  unseen: look('unseen', 'rising', 'not seen'),
};

/** What is done, least first. Figures, so that no mark means one thing on the map as found and another on the map of work. */
export const ACTION_LOOKS: Readonly<Record<Action, Look>> = {
  keep: { letter: '', hatch: 'plain', words: 'stays as it is' },
  restitch: { letter: '1', hatch: 'dashes', words: 'sewn down again' },
  restuff: { letter: '2', hatch: 'rings', words: 'filled again' },
  support: { letter: '3', hatch: 'level', words: 'supported from behind' },
  overlay: { letter: '4', hatch: 'dots', words: 'covered with sheer cloth' },
  patch_over: { letter: '5', hatch: 'rising', words: 'covered with a patch' },
  replace: { letter: '6', hatch: 'net', words: 'replaced with new cloth' },
  remove: { letter: '7', hatch: 'shade', words: 'taken out' },
};

/** Where a map of states does not show which fabric lies where, and each fabric is treated in its own way. */
export const UNPLACED = 'unplaced';

export const PLANNED_LOOKS: Readonly<Record<Action | typeof UNPLACED, Look>> = {
  ...ACTION_LOOKS,
  [UNPLACED]: { letter: '·', hatch: 'plain', words: 'place not noted: what is done goes by the fabric' },
};
