import { ACTIONS, type Action } from '../../casebook/scales.ts';
import { isRenewed } from '../../findings/old-cloth.ts';
import { isPlaced, isTold } from '../../findings/survey-groups.ts';
import { readPosition, rowLetters } from '../../piecework/positions.ts';
import { type GroupAction, type Plan, placesOf } from '../../plans/model.ts';
import { whole } from '../../quantities/rounding.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section, type Table } from '../model.ts';
import { clean, listed, sentenceCase } from '../phrases.ts';
import { ACTION_LOOKS, type Tally } from '../pictures/picture.ts';
import { tallyOf } from '../tally.ts';

/** A box to tick by hand, and a place where there is nothing to tick. */
const BOX = '☐';
const NONE = '–';

/** What is done at each place, row by row where the quilt was mapped, with boxes to tick. */
export function rowsSection(plan: Plan, doc: DocumentContext): Section[] {
  const work = linesOf(plan);
  if (work.length === 0) return [];
  const table: Table = {
    kind: 'table',
    caption: doc.say('work.rows_title'),
    columns: ['Row', 'Places', 'What is done', 'Cloth', 'Out', 'In place', 'Checked'],
    rows: [...byRow(work, plan, doc), ...unplaced(work, doc)],
    tally: withKept(plan, shownIn(work)),
  };
  const rules: Block = { kind: 'list', items: doc.items('work.rows') };
  return [{ title: doc.say('work.rows_title'), blocks: [rules, table] }];
}

/** What the lines show: places where there are any, counts where there are none. */
const shownIn = (work: readonly Line[]): Tally['counts'] =>
  tallyOf(
    '',
    work,
    ({ action }) => action,
    ({ where, count }) => where?.length ?? count,
  ).counts;

/** What is left as it is stands in no line. */
const withKept = (plan: Plan, counts: Tally['counts']): Tally => {
  const worked = Object.values(counts).reduce((sum, count) => sum + count, 0);
  return { of: plan.id, counts: { ...counts, keep: plan.quilt.total - worked } };
};

type Rows = Table['rows'];

/** What is done alike to units of one cloth, whatever else their damage. */
interface Line {
  readonly action: Action;
  /** How many of each fabric, as far as is likely. */
  readonly families: ReadonlyMap<string | undefined, number>;
  /** Whether somebody noted how many of each there are. */
  readonly told: boolean;
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
    // On a map that does not show fabrics, one state's places are told only together.
    const alike = actions.filter((other) => other.action === action && other.group.state === group.state);
    const shared = !(isTold(group) && isPlaced(group)) && placesOf(alike, actions) !== undefined;
    const key = `${action} ${out} ${shared ? 'whatever fabric' : group.family}`;
    sets.set(key, [...(sets.get(key) ?? []), treated]);
  }
  return [...sets.values()].map((set) => lineOf(set, actions));
}

function lineOf(set: readonly GroupAction[], all: readonly GroupAction[]): Line {
  const [{ action, group } = set[0] as GroupAction] = set;
  const families = new Map<string | undefined, number>();
  for (const each of set)
    families.set(each.group.family, (families.get(each.group.family) ?? 0) + each.group.count);
  return {
    action,
    families,
    told: set.every((each) => isTold(each.group)),
    count: set.reduce((sum, each) => sum + each.group.count, 0),
    where: placesOf(set, all),
    out: isRenewed({ action }) && group.state !== 'missing',
  };
}

/** One line for each row, action and cloth; rows from the top. */
function byRow(work: readonly Line[], { quilt }: Plan, doc: DocumentContext): Rows {
  const inRow = new Map<number, number>();
  for (const { row } of quilt.piecework.units) inRow.set(row, (inRow.get(row) ?? 0) + 1);
  const lines = work.flatMap((line) =>
    rowsOf(line.where ?? []).map(([row, places]) => ({ row, places, line })),
  );
  return lines
    .sort((a, b) => a.row - b.row || ACTIONS.indexOf(a.line.action) - ACTIONS.indexOf(b.line.action))
    .map(({ row, places, line }) => ({
      name: `${rowLetters(row)}, of ${inRow.get(row) ?? 0}`,
      cells: [listed(places), ...toDo(line, doc)],
    }));
}

/** Where places were not noted, how many of what. */
const unplaced = (work: readonly Line[], doc: DocumentContext): Rows =>
  work
    .filter(({ where }) => where === undefined)
    .map((line) => ({
      name: doc.say('work.anywhere'),
      cells: [
        line.told ? doc.units(line.count) : doc.say('work.about', { units: doc.units(line.count) }),
        ...toDo(line, doc),
      ],
    }));

const toDo = (line: Line, doc: DocumentContext): string[] => [
  sentenceCase(ACTION_LOOKS[line.action].words),
  clothOf(line, doc),
  line.out ? BOX : NONE,
  line.action === 'remove' ? NONE : BOX,
  BOX,
];

/**
 * The fabric as far as it helps at the table: where places are known, only what was noted; where they are not, the fabric
 * that what is done goes by.
 */
function clothOf({ families, told, where }: Line, doc: DocumentContext): string {
  const known = [...families].flatMap(([letter, count]) =>
    letter === undefined ? [] : [{ name: doc.fabric(letter), count }],
  );
  const [first] = known;
  if (first === undefined || known.length < families.size || !(told || where === undefined)) return NONE;
  return known.length === 1 ? first.name : listed(known.map(({ name, count }) => `${count} × ${name}`));
}

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
export function countsSection(plan: Plan, doc: DocumentContext): Section {
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
    title: doc.say('work.counts_title'),
    blocks: [
      paragraph(doc.say('work.counts')),
      {
        kind: 'table',
        caption: doc.say('work.counts_title'),
        columns: ['What', 'Planned', 'Counted'],
        tally: { of: plan.id, counts: Object.fromEntries(counts) },
        rows: [
          planned(doc.say('work.places'), plan.quilt.total),
          ...counts.map(([action, count]) => planned(sentenceCase(ACTION_LOOKS[action].words), count)),
          planned(doc.say('work.together'), all),
          ...(out > 0 ? [planned(doc.say('work.pieces_out'), out)] : []),
          ...(made > 0 ? [planned(doc.say('work.pieces_made'), made)] : []),
          ...(plan.resewn.joins > 0 ? [planned(doc.say('work.seams'), plan.resewn.joins)] : []),
          unplanned(doc.say('work.pins_out')),
          unplanned(doc.say('work.pins_in')),
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
export function materialsSection(doc: DocumentContext, title: string, caption: string): Section {
  const items = doc.agreed?.estimator.materials().items ?? [];
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
                cells: [amountWords(amount, unit, doc), clean(note ?? '–')],
              })),
            },
          ],
  };
}

/** Yards and inches in the studio's units; pieces and spools as they are. */
function amountWords(amount: number, unit: string, doc: DocumentContext): string {
  const rounded = Math.round(amount * 1000) / 1000;
  if (unit === 'yd' && doc.papers.studio.units === 'metric') return doc.length(amount * 36);
  if (unit === 'in') return doc.length(amount);
  if (rounded === 1) return `1 ${unit.replace(/s$/, '')}`;
  return `${rounded} ${unit}`;
}
