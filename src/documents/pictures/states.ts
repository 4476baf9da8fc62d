import { type Action, UNIT_STATES, type UnitState } from '../../casebook/scales.ts';
import type { Hatch } from './hatch.tsx';

/** How one state or action is drawn, and what a client reads beside it. */
export interface Look {
  readonly letter: string;
  readonly hatch: Hatch;
  readonly words: string;
}

const look = (state: UnitState, hatch: Hatch, words: string): Look => ({
  letter: state === 'sound' ? '' : state === 'missing' ? '–' : UNIT_STATES[state].toUpperCase(),
  hatch,
  words,
});

/** States as found, least harm first. Letters are those of the case file's map. */
export const STATE_LOOKS: Readonly<Record<UnitState, Look>> = {
  sound: look('sound', 'plain', 'sound'),
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

/** What is done, least first. */
export const ACTION_LOOKS: Readonly<Record<Action, Look>> = {
  keep: { letter: '', hatch: 'plain', words: 'stays as it is' },
  restitch: { letter: 'S', hatch: 'dashes', words: 'sewn down again' },
  restuff: { letter: 'F', hatch: 'rings', words: 'filled again' },
  support: { letter: 'B', hatch: 'level', words: 'supported from behind' },
  overlay: { letter: 'O', hatch: 'dots', words: 'covered with sheer cloth' },
  patch_over: { letter: 'P', hatch: 'rising', words: 'covered with a patch' },
  replace: { letter: 'N', hatch: 'net', words: 'replaced with new cloth' },
  remove: { letter: '–', hatch: 'shade', words: 'taken out' },
};
