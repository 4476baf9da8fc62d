import type { Use } from '../../casebook/scales.ts';
import type { AnswerOption } from '../../decision/answer-model.ts';
import { whole } from '../../quantities/whole.ts';
import type { Block, Compare, Section, Words } from '../model.ts';
import { between, sentenceCase } from '../phrases.ts';
import { lifeRanges } from '../pictures/life-ranges.tsx';
import type { Writing } from '../writing.ts';
import { isForecast, yearsRange } from '../years.ts';
import { done, look, undo } from './option-parts.ts';

/** One row of the comparison: the same question to each option. */
interface RowSpec {
  readonly name: string;
  readonly cell: (option: AnswerOption, writing: Writing) => readonly Words[];
}

const ROWS: readonly RowSpec[] = [
  { name: 'What is done', cell: done },
  { name: 'What changes to the look', cell: look },
  { name: 'New holes in old cloth', cell: holes },
  { name: 'Time until the next repair', cell: years },
  { name: 'Hours of work', cell: hours },
  { name: 'Price', cell: price },
  {
    name: 'What it is like to live with',
    cell: ({ treatment }, writing) => writing.items(`living.${treatment}`),
  },
  { name: 'Can it be undone?', cell: undo },
];

/** All five ways side by side, then how to read them and their years on one axis. No way is marked as ours here. */
export function optionsSection(writing: Writing): Section {
  const { options } = writing.answer;
  const compare: Compare = {
    kind: 'compare',
    caption: 'Five ways, side by side',
    options: options.map(({ treatment }) => writing.say(`columns.${treatment}`)),
    rows: ROWS.map(({ name, cell }) => ({
      name,
      cells: options.map((option) => {
        const parts = cell(option, writing);
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
      { kind: 'paragraph', text: writing.say('decision.irreversible'), tone: 'small' },
      { kind: 'paragraph', text: writing.say('decision.holes'), tone: 'small' },
      ...(life === undefined ? [] : yearsBlocks(writing, life)),
    ],
  };
}

function yearsBlocks(writing: Writing, life: AnswerOption['estimates']['life_years']): Block[] {
  const picture = lifeRanges(
    'years',
    'Time until the next repair, for each of the five ways, in years from now',
    writing.answer.options.map(({ treatment, estimates: { life_years: each } }) => ({
      name: writing.say(`columns.${treatment}`),
      low: each.low,
      high: each.high,
      words: isForecast(each) ? yearsRange(each) : 'no time can be given',
    })),
    life.horizon,
    writing.situation.quiltCase.client.wanted_years,
  );
  const use = writing.use(life.use as Use);
  return [
    { kind: 'picture', picture },
    {
      kind: 'paragraph',
      text: writing.say('decision.ranges', { use, horizon: String(life.horizon) }),
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

function price({ estimates }: AnswerOption, writing: Writing): readonly Words[] {
  const { low, high, hold_point: pause } = estimates.price;
  return [
    between(writing.money(low), writing.money(high)),
    ...(pause ? ['With a stop for your approval once it is open.'] : []),
  ];
}
