import { ACTIONS, type Action } from '../../casebook/scales.ts';
import { isRenewed } from '../../findings/old-cloth.ts';
import { isTold } from '../../findings/survey-groups.ts';
import { readPosition, rowLetters } from '../../piecework/positions.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { placesOf } from '../../plans/places.ts';
import { whole } from '../../quantities/rounding.ts';
import { type Block, paragraph, type Section, type Table } from '../model.ts';
import { clean, listed, sentenceCase } from '../phrases.ts';
import { ACTION_LOOKS } from '../pictures/picture.ts';
import type { Writing } from '../writing.ts';

/** A box to tick by hand, and a place where there is nothing to tick. */
const BOX = '☐';
const NONE = '–';

/** What is done at each place, row by row where the quilt was mapped, with boxes to tick. */
export function rowsSection(plan: Plan, writing: Writing): Section[] {
  const work = linesOf(plan);
  if (work.length === 0) return [];
  const table: Table = {
    kind: 'table',
    caption: writing.say('work.rows_title'),
    columns: ['Row', 'Places', 'What is done', 'Cloth', 'Out', 'In place', 'Checked'],
    rows: [...byRow(work, plan, writing), ...unplaced(work, writing)],
  };
  const rules: Block = { kind: 'list', items: writing.items('work.rows') };
  return [{ title: writing.say('work.rows_title'), blocks: [rules, table] }];
}

type Rows = Table['rows'];

/** What is done alike to units of one cloth, whatever else their damage. */
interface Line {
  readonly action: Action;
  /** Undefined where nobody noted which fabric they are. */
  readonly family: string | undefined;
  readonly count: number;
  /** Undefined where nobody noted their places. */
  readonly where: readonly string[] | undefined;
  /** Whether anything comes out: where cloth is missing, nothing does. */
  readonly out: boolean;
}

function linesOf({ actions }: Plan): readonly Line[] {
  const sets = new Map<string, GroupAction[]>();
  for (const treated of actions.filter(({ action }) => action !== 'keep')) {
    const { group, action } = treated;
    const out = isRenewed({ action }) && group.state !== 'missing';
    // Which of one state's places are whose is not known where the map does not show fabrics.
    const told = isTold(group) || group.where === undefined;
    const alike = actions.filter((other) => other.action === action && other.group.state === group.state);
    const whose = told ? group.family : placesOf(alike, actions) === undefined ? group.state : 'all alike';
    const key = `${action} ${out} ${whose}`;
    sets.set(key, [...(sets.get(key) ?? []), treated]);
  }
  return [...sets.values()].flatMap((set) => {
    const [first] = set;
    if (first === undefined) return [];
    return {
      action: first.action,
      family: isTold(first.group) ? first.group.family : undefined,
      count: set.reduce((sum, { group }) => sum + group.count, 0),
      where: placesOf(set, actions),
      out: isRenewed(first) && first.group.state !== 'missing',
    };
  });
}

/** One line for each row, action and cloth; rows from the top. */
function byRow(work: readonly Line[], { quilt }: Plan, writing: Writing): Rows {
  const inRow = new Map<number, number>();
  for (const { row } of quilt.piecework.units) inRow.set(row, (inRow.get(row) ?? 0) + 1);
  const lines = work.flatMap((line) =>
    rowsOf(line.where ?? []).map(([row, places]) => ({ row, places, line })),
  );
  return lines
    .sort((a, b) => a.row - b.row || ACTIONS.indexOf(a.line.action) - ACTIONS.indexOf(b.line.action))
    .map(({ row, places, line }) => ({
      name: `${rowLetters(row)}, of ${inRow.get(row) ?? 0}`,
      cells: [listed(places), ...toDo(line, writing)],
    }));
}

/** Where places were not noted, how many of what. */
const unplaced = (work: readonly Line[], writing: Writing): Rows =>
  work
    .filter(({ where }) => where === undefined)
    .map((line) => ({
      name: writing.say('work.anywhere'),
      cells: [writing.units(line.count), ...toDo(line, writing)],
    }));

const toDo = (line: Line, writing: Writing): string[] => [
  sentenceCase(ACTION_LOOKS[line.action].words),
  line.family === undefined ? NONE : writing.fabric(line.family),
  line.out ? BOX : NONE,
  line.action === 'remove' ? NONE : BOX,
  BOX,
];

/** Places by their row, from the left. */
function rowsOf(where: readonly string[]): (readonly [row: number, places: readonly string[]])[] {
  const rows = new Map<number, { readonly at: string; readonly column: number }[]>();
  for (const at of where) {
    const { row = 0, column = 0 } = readPosition(at) ?? {};
    rows.set(row, [...(rows.get(row) ?? []), { at, column }]);
  }
  return [...rows].map(([row, places]) => [
    row,
    places.sort((a, b) => a.column - b.column).map(({ at }) => at),
  ]);
}

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

/** What the work agreed on is made with, and how its cloth is cut. */
export function materialsSection(writing: Writing, title: string, caption: string): Section {
  const items = writing.agreed?.estimator.materials().items ?? [];
  return {
    title,
    blocks:
      items.length === 0
        ? [paragraph('None beyond thread.')]
        : [
            {
              kind: 'table',
              caption,
              columns: ['What', 'How much', 'About'],
              rows: items.map(({ what, amount, unit, note }) => ({
                name: sentenceCase(clean(what)),
                cells: [amountWords(amount, unit, writing), clean(note ?? '–')],
              })),
            },
          ],
  };
}

/** Yards and inches in the studio's units; pieces and spools as they are. */
function amountWords(amount: number, unit: string, writing: Writing): string {
  const rounded = Math.round(amount * 1000) / 1000;
  if (unit === 'yd' && writing.papers.studio.units === 'metric') return writing.length(amount * 36);
  if (unit === 'in') return writing.length(amount);
  if (rounded === 1) return `1 ${unit.replace(/s$/, '')}`;
  return `${rounded} ${unit}`;
}
