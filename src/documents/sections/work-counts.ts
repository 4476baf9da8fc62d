import { ACTIONS, type Action } from '../../casebook/scales.ts';
import { isRenewed } from '../../findings/takings.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { whole } from '../../quantities/whole.ts';
import { paragraph, type Section } from '../model.ts';
import { sentenceCase } from '../phrases.ts';
import { ACTION_LOOKS } from '../pictures/states.ts';
import type { Writing } from '../writing.ts';

/** Room for a figure written by hand. */
const BLANK = '______';

/** Counts that have to come out even before anything is joined: places and their parts, pieces out and in, pins. */
export function countsSection(plan: Plan, writing: Writing): Section {
  const counts = ACTIONS.flatMap((action): [Action, number][] => {
    const count = unitsIn(plan, (each) => each.action === action);
    return count === 0 ? [] : [[action, count]];
  });
  const all = counts.reduce((sum, [, count]) => sum + count, 0);
  const made = unitsIn(plan, ({ action }) => action === 'replace');
  const out = piecesOut(plan);
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

const unitsIn = ({ actions }: Plan, wanted: (each: GroupAction) => boolean): number =>
  actions.filter(wanted).reduce((sum, { group }) => sum + group.count, 0);

/** Old pieces that come out and go back to their owner; of what is missing there is nothing left to keep. */
export const piecesOut = (plan: Plan): number =>
  unitsIn(plan, (each) => isRenewed(each) && each.group.state !== 'missing');
