import type { LogEntry } from '../../casebook/model.ts';
import type { AnswerOption } from '../../decision/answer-model.ts';
import type { Option } from '../../decision/situation.ts';
import { followupDays } from '../../experience/due.ts';
import { whole } from '../../quantities/rounding.ts';
import { paragraph, type Section, type Table } from '../model.ts';
import { clean, hoursBetween, isForecast, listed, quarters, sentenceCase, yearsRange } from '../phrases.ts';
import { photoSection } from '../sections/condition.ts';
import { decidedSection } from '../sections/decided.ts';
import { done, undo } from '../sections/options.ts';
import { drawnSection, plannedFastenings, plannedMap } from '../sections/quilt-pictures.ts';
import { isHazardous, safetySection } from '../sections/safety.ts';
import { piecesOut } from '../sections/work-rows.ts';
import type { Writing } from '../writing.ts';
import { returnBlocks } from './care.ts';
import { frame, type Kind } from './frame.ts';

/** When the work is done: what was done, how it can be undone, what stays weak, and when to meet again. */
export const completionReport: Kind = {
  name: 'report',
  summary: 'what was done, how long it took, what comes back to the client and what stays weak',
  questions: false,
  unfit: ({ finished }) =>
    finished === undefined ? 'no day is on record by which the work was finished' : undefined,
  write(writing) {
    const { finished } = writing;
    if (finished === undefined) throw new Error('a report needs work that is finished');
    const { option, told, by } = finished;
    return frame(writing, writing.say('report.title'), [
      ...(isHazardous(writing) ? safetySection(writing) : []),
      {
        title: writing.say('report.done'),
        blocks: [
          paragraph(
            writing.say('report.finished', {
              treatment: writing.treatment(told.treatment),
              on: writing.date(by.on),
            }),
          ),
          { kind: 'list', items: done(told, writing) },
        ],
      },
      ...drawnSection(writing.say('report.drawn'), [
        plannedMap(writing, 'done', option, writing.say('report.map')),
        plannedFastenings(writing, 'fastenings', option, writing.say('report.fastenings')),
      ]),
      ...photoSection(writing),
      ...decidedSection(writing),
      holes(told, by.holes, writing),
      ...hours(option, writing),
      returned(option, writing),
      { title: writing.say('report.undo'), blocks: [{ kind: 'list', items: undo(told, writing) }] },
      weak(told, writing),
      // Nobody is asked to bring or show what has to stay closed.
      ...(isHazardous(writing) ? [] : [meeting(by.on, writing)]),
    ]);
  },
};

/** Expected, and counted where somebody did. */
function holes({ estimates }: AnswerOption, counted: number | undefined, writing: Writing): Section {
  const { new_old_face: face, new_old_allowance: seams, new_old_backing: back } = estimates.holes;
  const said = [writing.say('report.holes', { count: whole(face + seams + back) })];
  if (counted !== undefined) said.push(writing.say('report.holes_counted', { count: whole(counted) }));
  return { title: writing.say('report.holes_title'), blocks: [paragraph(said.join(' '))] };
}

const UNWRITTEN = 'not written down';

/** Hours worked beside those expected; left out where none were written down. */
function hours({ estimator }: Option, writing: Writing): Section[] {
  const { log = [] } = writing.situation.quiltCase;
  if (log.length === 0) return [];
  const worked = (entries: readonly LogEntry[]): number =>
    entries.reduce((sum, entry) => sum + entry.hours, 0);
  const estimated = estimator.hours();
  const { operations } = estimated;
  const expected = new Map(operations.map(({ operation, hours: each }) => [operation, each]));
  const names = [...new Set([...expected.keys(), ...log.map(({ operation }) => operation)])];
  const rows = names.flatMap((name): Table['rows'] => {
    const range = expected.get(name);
    const own = log.filter(({ operation }) => operation === name);
    if (own.length === 0 && (range === undefined || range.high <= 0)) return [];
    return [
      {
        name: sentenceCase(name),
        cells: [
          range === undefined ? '–' : hoursBetween(range),
          own.length === 0 ? UNWRITTEN : quarters(worked(own)),
        ],
      },
    ];
  });
  const sum = quarters(worked(log));
  const part = rows.some(({ cells }) => cells[1] === UNWRITTEN);
  const all = {
    name: 'All together',
    cells: [hoursBetween(estimated), part ? writing.say('report.part', { hours: sum }) : sum],
  };
  return [
    {
      title: 'Hours',
      blocks: [
        paragraph(writing.say('report.hours')),
        {
          kind: 'table',
          caption: 'Hours, step by step',
          columns: ['Step', 'Expected', 'Worked'],
          rows: [...rows, all],
        },
      ],
    },
  ];
}

/** Old cloth that goes back to its owner. */
function returned({ plan }: Option, writing: Writing): Section {
  const count = piecesOut(plan);
  const text =
    count === 0 ? writing.say('report.none_out') : writing.say('report.out', { units: writing.units(count) });
  return { title: writing.say('report.out_title'), blocks: [paragraph(text)] };
}

function weak({ estimates: { life_years: life } }: AnswerOption, writing: Writing): Section {
  const fabrics = writing.weakFabrics.map(({ name }) => clean(name));
  return {
    title: writing.say('report.weak'),
    blocks: [
      paragraph(
        [
          ...(isForecast(life) ? [writing.say('report.years', { years: yearsRange(life) })] : []),
          writing.say('care.weakest', { part: clean(life.weakest_link) }),
          ...(fabrics.length === 0 ? [] : [writing.say('report.fabrics', { fabrics: listed(fabrics) })]),
        ].join(' '),
      ),
    ],
  };
}

/** Days that are still to come; what goes with the quilt. */
function meeting(finished: string, writing: Writing): Section {
  const days = followupDays(finished, writing.papers.figures)
    .filter(({ on }) => on >= writing.answer.as_of)
    .map(({ on }) => writing.date(on));
  return {
    title: writing.say('care.return'),
    blocks: [
      ...(days.length === 0 ? [] : [paragraph(writing.say('report.meeting', { days: listed(days) }))]),
      ...returnBlocks(writing),
      paragraph(writing.say('report.with_it')),
    ],
  };
}
