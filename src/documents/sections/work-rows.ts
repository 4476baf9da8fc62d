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
  const work = linesOf(plan.actions.filter(({ action }) => action !== 'keep'));
  if (work.length === 0) return [];
  const table: Table = {
    kind: 'table',
    caption: writing.say('work.rows_title'),
    columns: ['Row', 'Places', 'What is done', 'Cloth', 'Out', 'In place', 'Checked'],
    rows: work.every(({ where }) => where !== undefined)
      ? byRow(work, plan, writing)
      : allOver(work, writing),
  };
  const rules: Block = { kind: 'list', items: writing.items('work.rows') };
  return [{ title: writing.say('work.rows_title'), blocks: [rules, table] }];
}

type Rows = Table['rows'];

/** What is done alike to units of one cloth, whatever else their damage. */
interface Line {
  readonly action: Action;
  readonly family: string | undefined;
  readonly count: number;
  /** Undefined where some of them have no place on a map. */
  readonly where: readonly string[] | undefined;
  /** Whether anything comes out: where cloth is missing, nothing does. */
  readonly out: boolean;
}

function linesOf(work: readonly GroupAction[]): readonly Line[] {
  const lines = new Map<string, Line>();
  for (const { group, action } of work) {
    const { family, count, where, state } = group;
    const out = isRenewed({ action }) && state !== 'missing';
    const key = `${action} ${family} ${out}`;
    const before = lines.get(key) ?? { count: 0, where: [] };
    lines.set(key, {
      action,
      family,
      count: before.count + count,
      where: where && before.where && [...before.where, ...where],
      out,
    });
  }
  return [...lines.values()];
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

/** Where there is no map, how many of what. */
const allOver = (work: readonly Line[], writing: Writing): Rows =>
  work.map((line) => ({
    name: writing.say('work.anywhere'),
    cells: [writing.units(line.count), ...toDo(line, writing)],
  }));

const toDo = ({ action, family, out }: Line, writing: Writing): string[] => [
  sentenceCase(ACTION_LOOKS[action].words),
  family === undefined ? NONE : writing.fabric(family),
  out ? BOX : NONE,
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
