import type { LogEntry } from '../../casebook/model.ts';
import type { AnswerOption } from '../../decision/answer-model.ts';
import type { Option } from '../../decision/situation.ts';
import { followupDays } from '../../experience/due.ts';
import { whole } from '../../quantities/rounding.ts';
import type { DocumentContext } from '../document-context.ts';
import { paragraph, type Section, type Table } from '../model.ts';
import { clean, hoursBetween, isForecast, listed, quarters, sentenceCase, yearsRange } from '../phrases.ts';
import { photoSection } from '../sections/condition.ts';
import { decidedSection } from '../sections/decided.ts';
import { done, undo } from '../sections/options.ts';
import { drawnSection, plannedFastenings, plannedMap } from '../sections/quilt-pictures.ts';
import { isHazardous, safetySection } from '../sections/safety.ts';
import { piecesOut } from '../sections/work-rows.ts';
import { returnBlocks } from './care.ts';
import { frame, type Kind } from './frame.ts';

/** When the work is done: what was done, how it can be undone, what stays weak, and when to meet again. */
export const completionReport: Kind = {
  name: 'report',
  summary: 'what was done, how long it took, what comes back to the client and what stays weak',
  questions: false,
  unfit: ({ finished }) =>
    finished === undefined ? 'no day is on record by which the work was finished' : undefined,
  write(doc) {
    const { finished } = doc;
    if (finished === undefined) throw new Error('a report needs work that is finished');
    const { option, told, by } = finished;
    return frame(doc, doc.say('report.title'), [
      ...(isHazardous(doc) ? safetySection(doc) : []),
      {
        title: doc.say('report.done'),
        blocks: [
          paragraph(
            doc.say('report.finished', {
              treatment: doc.treatment(told.treatment),
              on: doc.date(by.on),
            }),
          ),
          { kind: 'list', items: done(told, doc) },
        ],
      },
      ...drawnSection(doc.say('report.drawn'), [
        plannedMap(doc, 'done', option, doc.say('report.map')),
        plannedFastenings(doc, 'fastenings', option, doc.say('report.fastenings')),
      ]),
      ...photoSection(doc),
      ...decidedSection(doc),
      holes(told, by.holes, doc),
      ...hours(option, doc),
      returned(option, doc),
      { title: doc.say('report.undo'), blocks: [{ kind: 'list', items: undo(told, doc) }] },
      weak(told, doc),
      // Nobody is asked to bring or show what has to stay closed.
      ...(isHazardous(doc) ? [] : [meeting(by.on, doc)]),
    ]);
  },
};

/** Expected, and counted where somebody did. */
function holes({ estimates }: AnswerOption, counted: number | undefined, doc: DocumentContext): Section {
  const { new_old_face: face, new_old_allowance: seams, new_old_backing: back } = estimates.holes;
  const said = [doc.say('report.holes', { count: whole(face + seams + back) })];
  if (counted !== undefined) said.push(doc.say('report.holes_counted', { count: whole(counted) }));
  return { title: doc.say('report.holes_title'), blocks: [paragraph(said.join(' '))] };
}

const UNWRITTEN = 'not written down';

/** Hours worked beside those expected; left out where none were written down. */
function hours({ estimator }: Option, doc: DocumentContext): Section[] {
  const { log = [] } = doc.situation.quiltCase;
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
    cells: [hoursBetween(estimated), part ? doc.say('report.part', { hours: sum }) : sum],
  };
  return [
    {
      title: 'Hours',
      blocks: [
        paragraph(doc.say('report.hours')),
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
function returned({ plan }: Option, doc: DocumentContext): Section {
  const count = piecesOut(plan);
  const text = count === 0 ? doc.say('report.none_out') : doc.say('report.out', { units: doc.units(count) });
  return { title: doc.say('report.out_title'), blocks: [paragraph(text)] };
}

function weak({ estimates: { life_years: life } }: AnswerOption, doc: DocumentContext): Section {
  const fabrics = doc.weakFabrics.map(({ name }) => clean(name));
  return {
    title: doc.say('report.weak'),
    blocks: [
      paragraph(
        [
          ...(isForecast(life) ? [doc.say('report.years', { years: yearsRange(life) })] : []),
          doc.say('care.weakest', { part: clean(life.weakest_link) }),
          ...(fabrics.length === 0 ? [] : [doc.say('report.fabrics', { fabrics: listed(fabrics) })]),
        ].join(' '),
      ),
    ],
  };
}

/** Days that are still to come; what goes with the quilt. */
function meeting(finished: string, doc: DocumentContext): Section {
  const days = followupDays(finished, doc.papers.figures)
    .filter(({ on }) => on >= doc.answer.as_of)
    .map(({ on }) => doc.date(on));
  return {
    title: doc.say('care.return'),
    blocks: [
      ...(days.length === 0 ? [] : [paragraph(doc.say('report.meeting', { days: listed(days) }))]),
      ...returnBlocks(doc),
      paragraph(doc.say('report.with_it')),
    ],
  };
}
