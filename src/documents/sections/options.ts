import type { Action, Use } from '../../casebook/scales.ts';
import type { AnswerOption } from '../../decision/answer-model.ts';
import { whole } from '../../quantities/rounding.ts';
import type { DocumentContext } from '../document-context.ts';
import type { Block, Compare, Section, Words } from '../model.ts';
import { between, counted, isForecast, sentenceCase, yearsRange } from '../phrases.ts';
import { lifeRanges } from '../pictures/life-ranges.tsx';
import type { TextKey } from '../slots.ts';

/** One row of the comparison: the same question to each option. */
interface RowSpec {
  readonly name: string;
  readonly cell: (option: AnswerOption, doc: DocumentContext) => readonly Words[];
}

const unitsOf = ({ plan }: Way, actions: readonly Action[]): number =>
  actions.reduce((sum, action) => sum + (plan.actions[action]?.units ?? 0), 0);

const BACKING_TEXTS: Readonly<Record<string, TextKey>> = {
  keep: 'done.backing_keep',
  add: 'done.backing_add',
  replace: 'done.backing_replace',
  none: 'done.backing_none',
};

const joiningOf = (joining: string): 'tacks' | 'ties' | 'lines' =>
  joining === 'ties' || joining === 'lines' ? joining : 'tacks';

const ROWS: readonly RowSpec[] = [
  { name: 'What is done', cell: done },
  { name: 'What changes to the look', cell: look },
  { name: 'New holes in old cloth', cell: holes },
  { name: 'Time until the next repair', cell: years },
  { name: 'Hours of work', cell: hours },
  { name: 'Price', cell: price },
  {
    name: 'What it is like to live with',
    cell: ({ treatment }, doc) => doc.items(`living.${treatment}`),
  },
  { name: 'Can it be undone?', cell: undo },
];

/** All five ways side by side, then how to read them and their years on one axis. No way is marked as ours here. */
export function optionsSection(doc: DocumentContext): Section {
  const { options } = doc.answer;
  const compare: Compare = {
    kind: 'compare',
    caption: 'Five ways, side by side',
    options: options.map(({ treatment }) => doc.say(`columns.${treatment}`)),
    rows: ROWS.map(({ name, cell }) => ({
      name,
      cells: options.map((option) => {
        const parts = cell(option, doc);
        return parts.length > 0 ? parts : ['Not known.'];
      }),
    })),
  };
  const [first] = options;
  const life = first?.estimates.life_years;
  return {
    title: 'Five ways, side by side',
    page: true,
    blocks: [
      compare,
      { kind: 'paragraph', text: doc.say('decision.irreversible'), tone: 'small' },
      { kind: 'paragraph', text: doc.say('decision.holes'), tone: 'small' },
      ...(life === undefined ? [] : yearsBlocks(doc, life)),
    ],
  };
}

function yearsBlocks(doc: DocumentContext, life: AnswerOption['estimates']['life_years']): Block[] {
  const picture = lifeRanges(
    'years',
    'Time until the next repair, for each of the five ways, in years from now',
    doc.answer.options.map(({ treatment, estimates: { life_years: each } }) => ({
      name: doc.say(`columns.${treatment}`),
      low: each.low,
      high: each.high,
      words: yearsRange(each),
    })),
    { horizon: life.horizon, wanted: doc.situation.quiltCase.client.wanted_years },
  );
  const use = doc.use(life.use as Use);
  return [
    { kind: 'picture', picture },
    {
      kind: 'paragraph',
      text: doc.say('decision.ranges', { use, horizon: String(life.horizon) }),
      tone: 'small',
    },
  ];
}

function holes({ estimates: { holes: each } }: AnswerOption): readonly Words[] {
  const total = each.new_old_face + each.new_old_allowance + each.new_old_backing;
  if (total === 0) return ['None.'];
  return [
    `${whole(total)} in all.`,
    `Of these in the face of the front: ${whole(each.new_old_face)}.`,
    `Hidden in seams: ${whole(each.new_old_allowance)}.`,
    ...(each.new_old_backing > 0 ? [`In the old back: ${whole(each.new_old_backing)}.`] : []),
  ];
}

function years({ estimates: { life_years: life } }: AnswerOption): readonly Words[] {
  return isForecast(life)
    ? [`${sentenceCase(yearsRange(life))}.`, `First to give way: ${life.weakest_link}.`]
    : [`${sentenceCase(yearsRange(life))}.`];
}

function hours({ estimates }: AnswerOption): readonly Words[] {
  const { low, high } = estimates.hours;
  return [between(whole(low), whole(high))];
}

function price({ estimates }: AnswerOption, doc: DocumentContext): readonly Words[] {
  const { low, high, hold_point: pause } = estimates.price;
  return [
    between(doc.money(low), doc.money(high)),
    ...(pause ? ['With a stop for your approval once it is open.'] : []),
  ];
}

type Parts = readonly Words[];
/** A way to go, whoever's: one of the five options, or the one chosen. */
type Way = Pick<AnswerOption, 'treatment' | 'plan' | 'estimates'>;

/** What is done, part by part, in the order of the work. */
export function done(option: Way, doc: DocumentContext): Parts {
  const { plan, treatment } = option;
  if (treatment === 'leave') return doc.items('done.leave');
  const units = (Object.keys(plan.actions) as Action[]).flatMap((action) =>
    action === 'keep'
      ? []
      : doc.items(`done.${action}`, { units: doc.units(plan.actions[action]?.units ?? 0) }),
  );
  const hand = plan.sewn_by;
  return [
    ...units,
    ...(plan.joins_resewn > 0
      ? doc.items('done.seams', { hand: plan.resewn_by, count: counted(plan.joins_resewn, 'seam') })
      : []),
    ...layers(option, doc),
    ...(plan.joining === 'none'
      ? []
      : doc.items(`done.${joiningOf(plan.joining)}`, { hand, gap: plan.gap_after })),
  ];
}

function layers({ plan }: Way, doc: DocumentContext): Parts {
  const backing = BACKING_TEXTS[plan.backing] ?? 'done.backing_keep';
  const had = doc.situation.quiltCase.quilt.batting?.kind;
  const batting =
    plan.batting === 'replace'
      ? doc.items('done.batting_replace', {
          kind: (plan.new_batting ?? 'not chosen yet').replaceAll('_', ' '),
        })
      : plan.batting === 'keep'
        ? doc.items('done.batting_keep')
        : had === undefined || had === 'none'
          ? []
          : doc.items('done.batting_taken_out');
  return [...doc.items(backing), ...batting];
}

/** What changes to the look. */
function look(option: Way, doc: DocumentContext): Parts {
  const { plan, treatment } = option;
  if (treatment === 'leave') return doc.items('look.none');
  const patched = unitsOf(option, ['patch_over']);
  const replaced = unitsOf(option, ['replace']);
  const sheer = unitsOf(option, ['overlay']);
  const gone = unitsOf(option, ['remove']);
  const parts = [
    ...(patched > 0 ? doc.items('look.patches', { units: doc.units(patched) }) : []),
    ...(replaced > 0 ? doc.items('look.new_cloth', { units: doc.units(replaced) }) : []),
    ...(sheer > 0 ? doc.items('look.sheer', { units: doc.units(sheer) }) : []),
    ...(gone > 0 ? doc.items('look.gone', { units: doc.units(gone) }) : []),
    ...(plan.backing === 'add' || plan.backing === 'replace' ? doc.items('look.back') : []),
    ...(plan.joining === 'none' ? [] : doc.items(`look.${joiningOf(plan.joining)}`)),
  ];
  return parts.length > 0 ? parts : doc.items('look.sewn');
}

/** Whether it can be undone; what cannot is marked by a sign and by words. */
export function undo(option: Way, doc: DocumentContext): Parts {
  const { plan, treatment, estimates } = option;
  if (treatment === 'leave') return doc.items('undo.nothing');
  const taken = unitsOf(option, ['replace', 'remove']);
  const covered = unitsOf(option, ['patch_over', 'overlay', 'support']);
  const { holes } = estimates;
  const marked = (text: string): Words => [{ strong: `▲ ${doc.say('marks.irreversible')}` }, ` ${text}`];
  return [
    ...doc.items('undo.stitches'),
    ...(covered > 0 ? doc.items('undo.cover') : []),
    ...(plan.backing === 'replace' ? doc.items('undo.old_back') : []),
    ...(holes.new_old_face + holes.new_old_allowance + holes.new_old_backing > 0
      ? doc.items('undo.holes').map(marked)
      : []),
    ...(taken > 0 ? doc.items('undo.taken_out', { units: doc.units(taken) }).map(marked) : []),
    ...(plan.batting !== 'keep' && !battingAbsent(doc) ? doc.items('undo.old_filling').map(marked) : []),
  ];
}

function battingAbsent(doc: DocumentContext): boolean {
  const kind = doc.situation.quiltCase.quilt.batting?.kind;
  return kind === undefined || kind === 'none' || kind === 'unknown';
}
