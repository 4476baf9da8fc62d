import type { Treatment } from '../../casebook/scales.ts';
import { whole } from '../../quantities/rounding.ts';
import type { Standing } from '../../rulebook/model.ts';

/** Treatments and standings as a person reads them: one place, so that terminal and documents say the same. */
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

/** "go ahead, tie it"; for refer and decline the standing alone. */
export const outcomeWords = ({
  standing,
  treatment,
}: {
  readonly standing: Standing;
  readonly treatment: Treatment | null;
}): string =>
  treatment === null
    ? STANDING_WORDS[standing]
    : `${STANDING_WORDS[standing]}, ${TREATMENT_WORDS[treatment]}`;

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

export const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "1 seam", "3 seams". */
export const counted = (count: number, singular: string, plural = `${singular}s`): string =>
  `${whole(count)} ${count === 1 ? singular : plural}`;
