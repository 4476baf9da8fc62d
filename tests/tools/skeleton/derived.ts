import { GRADES } from '../../../src/casebook/scales.ts';
import type { Fact } from '../../../src/findings/fact.ts';
import { at, type Draft, percent, put } from './draft.ts';

type Put = (draft: Draft, fact: Fact) => void;

/** Units and seams are counted in thousands, so that a share of a tenth of a percent comes out whole. */
const COUNTED = 1000;
const SEAMS = 1000;

const number = (fact: Fact): number => (typeof fact === 'number' ? fact : 0);
const had = (draft: Draft, path: readonly string[]): number => {
  const value = at(draft, path);
  return typeof value === 'number' ? value : 0;
};

/** A share of the units in one state. */
const inState =
  (state: string): Put =>
  (draft, fact) => {
    put(draft, ['survey', 'counts', 'of'], COUNTED);
    put(draft, ['survey', 'counts', state], Math.round(number(fact) * COUNTED));
  };

/** Lost units are loss beyond doubt only where the cloth that is there is known not to be failing. */
const lost: Put = (draft, fact) => {
  inState('lost')(draft, fact);
  if (at(draft, ['survey', 'families']) === undefined) allOver(draft, 0);
};

/** Units that were counted: where nobody looked, what will be done with them stays open, and so does the cloth as planned. */
const whole = (draft: Draft): void => {
  if (at(draft, ['survey', 'counts', 'of']) === undefined) put(draft, ['survey', 'counts', 'of'], COUNTED);
};

/** One fabric all over, of this grade. */
const allOver: Put = (draft, fact) => {
  whole(draft);
  put(draft, ['survey', 'families', 'A', 'fragility'], GRADES[number(fact)] ?? 'sound');
  if (at(draft, ['survey', 'families', 'B']) === undefined)
    put(draft, ['survey', 'families', 'A', 'share'], '100 %');
};

/** One fabric of a grade over a share of the top, another beside it that is sound. */
const partly =
  (grade: string): Put =>
  (draft, fact) => {
    put(draft, ['survey', 'families', 'A', 'fragility'], grade);
    whole(draft);
    // Units that are lost are not there to be of any grade.
    const gone = had(draft, ['survey', 'counts', 'lost']);
    if (gone > 0) put(draft, ['survey', 'families', 'A', 'lost'], 0);
    put(draft, ['survey', 'families', 'A', 'share'], percent(number(fact)));
    put(draft, ['survey', 'families', 'B'], {
      fragility: 'sound',
      share: percent(1 - number(fact) - otherShares(draft)),
      ...(gone > 0 ? { lost: gone } : {}),
    });
  };

/** What fabrics beside these two already take of the top. */
function otherShares(draft: Draft): number {
  const families = at(draft, ['survey', 'families']);
  if (typeof families !== 'object' || Array.isArray(families)) return 0;
  return Object.entries(families as Draft)
    .filter(([letter]) => letter !== 'A' && letter !== 'B')
    .reduce(
      (sum, [letter]) =>
        sum + Number.parseFloat(String(at(draft, ['survey', 'families', letter, 'share']))) / 100,
      0,
    );
}

const openSeams = (draft: Draft, share: number): void => {
  put(draft, ['survey', 'joins', 'inspected'], SEAMS);
  put(draft, ['survey', 'joins', 'open'], Math.round(share * SEAMS));
  for (const cause of ['cloth', 'allowance']) put(draft, ['survey', 'joins', cause], 0);
  threadTheRest(draft);
};

/** What gave way neither in the cloth nor at the allowance gave way in the thread. */
const threadTheRest = (draft: Draft): void => {
  const count = (name: string): number => had(draft, ['survey', 'joins', name]);
  put(draft, ['survey', 'joins', 'thread'], Math.max(0, count('open') - count('cloth') - count('allowance')));
};

/** Seams that opened for a cause, over all that opened or over all that were seen. */
const seamsBy =
  (cause: 'cloth' | 'allowance', over: 'open' | 'inspected'): Put =>
  (draft, fact) => {
    // Enough of all seams for any share of them, and few enough to be resewn.
    if (at(draft, ['survey', 'joins', 'inspected']) !== SEAMS) openSeams(draft, 0.2);
    const count = Math.round(number(fact) * had(draft, ['survey', 'joins', over]));
    put(draft, ['survey', 'joins', cause], count);
    threadTheRest(draft);
  };

const fibre =
  (yes: string): Put =>
  (draft, fact) =>
    put(draft, ['survey', 'families', 'A', 'fibre'], fact === true ? yes : 'cotton');

/** A grade of the backing that puts it into each state. */
const GRADES_BY_STATE = ['sound', 'sound', 'weak', 'fragile'];

const BLEEDS = ['none', 'trace_with_detergent', 'trace_with_water', 'clear', 'rubs_off'];

/** How a survey comes to show a derived finding. Order matters: what counts seams stands before what shares them out. */
export const DERIVED: Readonly<Record<string, Put>> = {
  loss: lost,
  split_share: inState('split'),
  hole_share: inState('hole'),
  edge_share: inState('edge'),
  flattened_share: inState('flattened'),
  stained_share: inState('stained'),
  bled_share: inState('bled'),
  earlier_repairs: inState('repaired'),
  unseen_share: inState('unseen'),
  governing_fragility: allOver,
  worst_fragility: allOver,
  line_fragility: allOver,
  fragility: allOver,
  failing_share: partly('failing'),
  weak_share: partly('weak'),
  weak_families_share: (draft, fact) => {
    const grade = at(draft, ['survey', 'families', 'A', 'fragility']);
    partly(typeof grade === 'string' && GRADES.indexOf(grade as never) >= 2 ? grade : 'weak')(draft, fact);
  },
  worst_family_loss: (draft, fact) => {
    // Two fabrics, half and half; the whole loss falls on one of them.
    const gone = Math.round((number(fact) * COUNTED) / 2);
    put(draft, ['survey', 'counts', 'of'], COUNTED);
    put(draft, ['survey', 'counts', 'lost'], gone);
    put(draft, ['survey', 'families', 'A', 'share'], '50 %');
    put(draft, ['survey', 'families', 'A', 'fragility'], 'sound');
    put(draft, ['survey', 'families', 'A', 'lost'], gone);
    put(draft, ['survey', 'families', 'B'], { fragility: 'sound', share: '50 %', lost: 0 });
  },
  join_failure: (draft, fact) => openSeams(draft, number(fact)),
  cloth_share_of_failures: seamsBy('cloth', 'open'),
  cloth_joins_of_seen: (draft, fact) => {
    const joins = (name: string): number => had(draft, ['survey', 'joins', name]);
    const share = joins('open') === 0 ? 0 : joins('cloth') / joins('open');
    seamsBy('cloth', 'inspected')(draft, fact);
    // What was said of their share among those that opened still holds.
    if (share > 0)
      put(draft, ['survey', 'joins', 'open'], Math.min(SEAMS, Math.round(joins('cloth') / share)));
    threadTheRest(draft);
  },
  allowance_gone_share: seamsBy('allowance', 'open'),
  dye_bleed: (draft, fact) =>
    put(draft, ['survey', 'families', 'A', 'dye_bleed'], BLEEDS[number(fact)] ?? 'none'),
  silk_present: fibre('silk'),
  wool_present: (draft, fact) => {
    if (fact === true || at(draft, ['survey', 'families', 'A', 'fibre']) === undefined)
      fibre('wool')(draft, fact);
    // Filling can be wool as well.
    if (fact === false) put(draft, ['quilt', 'batting', 'fibre'], 'cotton');
  },
  knit_present: fibre('knit'),
  delicate_fibre: fibre('silk'),
  fibre: (draft, fact) => put(draft, ['survey', 'families', 'A', 'fibre'], String(fact)),
  self_destructing: (draft, fact) =>
    put(draft, ['survey', 'families', 'A', 'self_destructing'], fact === true ? 'yes' : 'no'),
  open_damage: (draft, fact) => {
    put(draft, ['survey', 'joins', 'inspected'], SEAMS);
    put(draft, ['survey', 'joins', 'open'], fact === 'none' ? 0 : 2);
    put(draft, ['survey', 'counts', 'of'], COUNTED);
    put(draft, ['quilt', 'backing', 'damaged'], '0 %');
    put(draft, ['quilt', 'binding', 'worn'], '0 %');
    threadTheRest(draft);
  },
  backing_state: (draft, fact) => {
    put(draft, ['quilt', 'backing', 'kind'], fact === 0 ? 'none' : 'own');
    if (fact === 0) return;
    put(draft, ['quilt', 'backing', 'fragility'], GRADES_BY_STATE[number(fact)] ?? 'sound');
    put(draft, ['quilt', 'backing', 'damaged'], '0 %');
  },
  batting_state: (draft, fact) => {
    put(draft, ['quilt', 'batting', 'kind'], fact === 0 ? 'none' : 'loose');
    if (fact === 0) return;
    put(draft, ['quilt', 'batting', 'migrated'], ['0 %', '0 %', '20 %', '50 %'][number(fact)] ?? '0 %');
    put(draft, ['quilt', 'batting', 'crumbling'], 'no');
  },
  old_joining_intact: (draft, fact) => {
    if (at(draft, ['quilt', 'joining', 'kind']) === undefined)
      put(draft, ['quilt', 'joining', 'kind'], 'lines');
    if (at(draft, ['quilt', 'joining', 'gap']) === undefined) put(draft, ['quilt', 'joining', 'gap'], '4 in');
    put(draft, ['quilt', 'joining', 'missing'], fact === true ? '0 %' : '30 %');
  },
  state: (draft, fact) => {
    const state = String(fact);
    put(draft, ['survey', 'counts', 'of'], COUNTED);
    if (state !== 'sound') put(draft, ['survey', 'counts', state], 20);
  },
};
