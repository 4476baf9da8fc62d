import { ACTIONS, type Action } from '../../casebook/scales.ts';
import { isRenewed } from '../../findings/takings.ts';
import { readPosition, rowLetters } from '../../piecework/positions.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import type { Block, Section, Table } from '../model.ts';
import { listed, sentenceCase } from '../phrases.ts';
import { ACTION_LOOKS } from '../pictures/states.ts';
import type { Writing } from '../writing.ts';

/** A box to tick by hand, and a place where there is nothing to tick. */
const BOX = '☐';
const NONE = '–';

/** What is done at each place, row by row where the quilt was mapped, with boxes to tick. */
export function rowsSection(plan: Plan, writing: Writing): Section[] {
  const work = plan.actions.filter(({ action }) => action !== 'keep');
  if (work.length === 0) return [];
  const table: Table = {
    kind: 'table',
    caption: writing.say('work.rows_title'),
    columns: ['Row', 'Places', 'What is done', 'Cloth', 'Out', 'In place', 'Checked'],
    rows: work.every(({ group }) => group.where !== undefined)
      ? byRow(work, plan, writing)
      : allOver(work, writing),
  };
  const rules: Block = { kind: 'list', items: writing.items('work.rows') };
  return [{ title: writing.say('work.rows_title'), blocks: [rules, table] }];
}

type Rows = Table['rows'];

/** One line for each row, action and cloth; rows from the top. */
function byRow(work: readonly GroupAction[], { quilt }: Plan, writing: Writing): Rows {
  const inRow = new Map<number, number>();
  for (const { row } of quilt.piecework.units) inRow.set(row, (inRow.get(row) ?? 0) + 1);
  const lines = work.flatMap(({ group, action }) =>
    rowsOf(group.where ?? []).map(([row, places]) => ({ row, action, family: group.family, places })),
  );
  return lines
    .sort((a, b) => a.row - b.row || ACTIONS.indexOf(a.action) - ACTIONS.indexOf(b.action))
    .map(({ row, action, family, places }) => ({
      name: `${rowLetters(row)}, of ${inRow.get(row) ?? 0}`,
      cells: [listed(places), ...toDo(action, family, writing)],
    }));
}

/** Where there is no map, how many of what. */
const allOver = (work: readonly GroupAction[], writing: Writing): Rows =>
  work.map(({ group, action }) => ({
    name: writing.say('work.anywhere'),
    cells: [writing.units(group.count), ...toDo(action, group.family, writing)],
  }));

const toDo = (action: Action, family: string | undefined, writing: Writing): string[] => [
  sentenceCase(ACTION_LOOKS[action].words),
  family === undefined ? NONE : writing.fabric(family),
  isRenewed({ action }) ? BOX : NONE,
  action === 'remove' ? NONE : BOX,
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
