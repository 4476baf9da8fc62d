import type { Treatment } from '../casebook/scales.ts';
import type { Standing } from '../rulebook/model.ts';
import type { Recommendation } from './answer-model.ts';

/** Treatments, standings, actions and uses as whoever mends reads them. What a client reads stands in rules/texts.yaml. */
export const TREATMENT_WORDS: Readonly<Record<Treatment, string>> = {
  leave: 'leave it as it is',
  reassemble: 'put it back together',
  backing: 'add a backing, held by tacks',
  tie: 'tie it',
  lines: 'quilt it in lines',
};

export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  go_ahead: 'go ahead',
  not_yet: 'not yet',
  refer: 'refer to a specialist',
  decline: 'decline',
};

export const ACTION_WORDS: Readonly<Record<string, string>> = {
  restitch: 'restitched',
  restuff: 'restuffed',
  support: 'supported from behind',
  overlay: 'covered with sheer cloth',
  patch_over: 'patched over',
  replace: 'replaced',
  remove: 'removed',
};

export const USE_WORDS: Readonly<Record<string, string>> = {
  storage: 'in storage',
  display: 'on display',
  guest_bed: 'on a guest bed',
  regular_bed: 'on a bed in regular use',
  child_bed: "on a child's bed",
  infant_sleep: 'in a baby’s bed',
};

/** "go ahead, tie it", as a heading "go ahead: tie it"; for refer and decline the standing alone. */
export const sayRecommendation = (
  { standing, treatment }: Recommendation,
  between: ', ' | ': ' = ', ',
): string =>
  [STANDING_WORDS[standing], ...(treatment === null ? [] : [TREATMENT_WORDS[treatment]])].join(between);
