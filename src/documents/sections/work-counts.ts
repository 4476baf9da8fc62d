import { ACTIONS, type Action } from '../../casebook/scales.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { whole } from '../../quantities/whole.ts';
import { paragraph, type Section } from '../model.ts';
import { sentenceCase } from '../phrases.ts';
import { ACTION_LOOKS } from '../pictures/states.ts';
import type { Writing } from '../writing.ts';
import { TAKEN_OUT } from './work-rows.ts';

/** Room for a figure written by hand. */
const BLANK = '______';

/** Counts that have to come out even before anything is joined: places and their parts, pieces out and in, pins. */
export function countsSection(plan: Plan, writing: Writing): Section {
  const units = (wanted: (each: GroupAction) => boolean): number =>
    plan.actions.filter(wanted).reduce((sum, { group }) => sum + group.count, 0);
  const counts = ACTIONS.flatMap((action): [Action, number][] => {
    const count = units((each) => each.action === action);
    return count === 0 ? [] : [[action, count]];
  });
  const all = counts.reduce((sum, [, count]) => sum + count, 0);
  const made = units(({ action }) => action === 'replace');
  // Of what is missing there is nothing left to keep.
  const out = units(({ action, group }) => TAKEN_OUT.has(action) && group.state !== 'missing');
  const planned = (name: string, count: number) => ({ name, cells: [whole(count), BLANK] });
  const unplanned = (name: string) => ({ name, cells: ['–', BLANK] });
  return {
    title: writing.say('work.counts_title'),
    blocks: [
      paragraph(writing.say('work.counts')),
      {
        kind: 'table',
        caption: writing.say('work.counts_title'),
        columns: ['What', 'Planned', 'Counted'],
        rows: [
          planned(writing.say('work.places'), plan.quilt.total),
          ...counts.map(([action, count]) => planned(sentenceCase(ACTION_LOOKS[action].words), count)),
          planned(writing.say('work.together'), all),
          ...(out > 0 ? [planned(writing.say('work.pieces_out'), out)] : []),
          ...(made > 0 ? [planned(writing.say('work.pieces_made'), made)] : []),
          ...(plan.resewn.joins > 0 ? [planned(writing.say('work.seams'), plan.resewn.joins)] : []),
          unplanned(writing.say('work.pins_out')),
          unplanned(writing.say('work.pins_in')),
        ],
      },
    ],
  };
}
