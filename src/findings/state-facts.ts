import type { Action, UnitState } from '../casebook/scales.ts';
import { areaWhere } from './area.ts';
import { shareBetween } from './bounds.ts';
import type { Fact } from './fact.ts';
import type { SurveyedQuilt } from './surveyed.ts';
import { fabricsOf, type Treated } from './takings.ts';

interface StateFinding {
  readonly state: UnitState;
  /** What puts it right; empty for what no treatment undoes, which is then only a finding as found. */
  readonly mendedBy: readonly Action[];
}

/** Findings that say how much of the top is in one state. */
export const STATE_FINDINGS: Readonly<Record<string, StateFinding>> = {
  edge_share: {
    state: 'edge',
    mendedBy: ['restitch', 'support', 'overlay', 'patch_over', 'replace', 'remove'],
  },
  split_share: { state: 'split', mendedBy: ['support', 'overlay', 'patch_over', 'replace', 'remove'] },
  hole_share: { state: 'hole', mendedBy: ['patch_over', 'replace', 'remove'] },
  flattened_share: { state: 'flattened', mendedBy: ['restuff', 'replace', 'remove'] },
  stained_share: { state: 'stained', mendedBy: [] },
  bled_share: { state: 'bled', mendedBy: [] },
  earlier_repairs: { state: 'repaired', mendedBy: [] },
};

/** Shares of the top by state; units not seen may be in any. */
export const stateFacts = (
  quilt: SurveyedQuilt,
  actions: readonly Treated[],
): Readonly<Record<string, Fact>> => {
  const groups = actions.map(({ group }) => group);
  const unseen = areaWhere(quilt, groups, ({ state }) => state === 'unseen').hi;
  return Object.fromEntries(
    Object.entries(STATE_FINDINGS).map(([id, { state, mendedBy }]) => {
      const left = areaWhere(quilt, groups, (group, index) => {
        const { action = 'keep' } = actions[index] ?? {};
        return group.state === state && !mendedBy.includes(action);
      });
      return [id, shareBetween(left.lo, left.hi + unseen)];
    }),
  );
};

/** Share of the top nobody has looked at. */
export const unseenShare = (quilt: SurveyedQuilt): Fact => {
  const { lo, hi } = areaWhere(quilt, fabricsOf(quilt), ({ state }) => state === 'unseen');
  return shareBetween(lo, hi);
};
