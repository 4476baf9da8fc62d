import { FORECAST_NOTE } from '../../estimates/life/model.ts';
import { sayOutcome } from '../../experience/due.ts';
import type { Formatter } from '../../experience/format.ts';
import type { Learned } from '../../experience/learned.ts';
import { changes, type Proposal } from '../../experience/proposal.ts';
import {
  counted,
  figure,
  list,
  listed,
  type Page,
  type PageSection,
  type Piece,
  pageParagraph,
  percent,
  sentenceCase,
} from '../model.ts';
import { survivalSection } from './survival-section.ts';

/** What a studio's own outcomes say, in the order a practitioner would ask. */
export const learnedPage = (learned: Learned, formatter: Formatter, leastCases: number): Page => ({
  title: 'What experience says',
  lead: `${counted(learned.cases, 'case')}, ${learned.completed} finished, ${learned.evidence.length} followed up since.`,
  sections: [
    proposals(learned.proposals, leastCases),
    hours(learned),
    holes(learned),
    life(learned),
    survivalSection(
      'Time to the next repair, by treatment',
      learned.byTreatment,
      learned.treatmentsCompared,
      (name) => Reflect.get(formatter.treatment, name),
    ),
    survivalSection(
      'Time to the next repair, by the weakest cloth that counts',
      learned.byGrade,
      learned.gradesCompared,
      (name) => name,
    ),
    hidden(learned),
    worthALook(learned),
    rules(learned),
  ].filter(({ pieces }) => pieces.length > 0),
});

const amount = (value: number, unit: string): string =>
  unit.startsWith('share') ? `${figure(100 * value, 3)} %` : figure(value, 3);

const proposals = (all: readonly Proposal[], least: number): PageSection => {
  const open = all.filter(changes);
  const lead =
    all.length === 0
      ? `No proposals: no figure has ${least} cases that bear on it yet.`
      : open.length === 0
        ? 'Every figure already says what experience says of it.'
        : 'Nothing changes until you accept it: mendwise learned --accept with the figure’s name, or with "all".';
  return {
    title: 'Proposals for figures.yaml',
    pieces: [
      pageParagraph(lead),
      ...(open.length === 0
        ? []
        : [
            {
              kind: 'table',
              caption:
                'Bayes with the shipped figure as prior. The range holds 8 chances in 10; the effective size says how many independent draws the computation is worth.',
              columns: ['Figure', 'Shipped', 'Now', 'Proposed', 'Range', 'Cases', 'Effective size'],
              rows: open.map(({ figure: id, unit, prior, now, proposed, low, high, n, effectiveSize }) => [
                id,
                amount(prior, unit),
                amount(now, unit),
                amount(proposed, unit),
                `${amount(low, unit)} to ${amount(high, unit)}`,
                String(n),
                String(Math.round(effectiveSize)),
              ]),
            } satisfies Piece,
          ]),
    ],
  };
};

const hours = ({ hours: all }: Learned): PageSection => ({
  title: 'Hours: estimated and worked',
  pieces:
    all.length === 0
      ? []
      : [
          {
            kind: 'table',
            caption:
              'Finished quilts with a log. “In range” counts quilts whose hours lay between low and high.',
            columns: ['Operation', 'Quilts', 'Estimated', 'Worked', 'Worked ÷ estimated', 'In range'],
            rows: all.map((one) => [
              sentenceCase(one.operation),
              String(one.cases),
              `${one.estimated.toFixed(1)} h`,
              `${one.worked.toFixed(1)} h`,
              (one.worked / one.estimated).toFixed(2),
              `${one.inRange} of ${one.cases}`,
            ]),
          },
        ],
});

const whole = (value: number): string => String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, ',');

const holes = ({ holes: all }: Learned): PageSection => ({
  title: 'New holes in old cloth: planned and counted',
  pieces:
    all.length === 0
      ? []
      : [
          {
            kind: 'table',
            caption: 'Where somebody counted.',
            columns: ['Quilt', 'Planned', 'Counted', 'Counted ÷ planned'],
            rows: all.map((one) => [
              one.case,
              whole(one.planned),
              whole(one.counted),
              one.planned > 0 ? (one.counted / one.planned).toFixed(2) : '–',
            ]),
          },
        ],
});

const life = ({ life: record, evidence }: Learned): PageSection => {
  if (record.followed === 0) return { title: 'Life: forecast and found', pieces: [] };
  const { places, inside } = record;
  return {
    title: 'Life: forecast and found',
    pieces: [
      pageParagraph(
        `${counted(record.due, 'quilt')} of ${record.followed} needed repair again; over the years they were in view the forecasts expected ${record.expected.toFixed(1)}.`,
      ),
      pageParagraph(
        inside === undefined
          ? 'No outcome can be placed beside its 80 % range yet.'
          : `Of the ${counted(inside.of, 'outcome')} that can be placed, ${places.inside} lie inside the 80 % range (${percent(inside.share)}, 95 % interval ${percent(inside.interval.low)} to ${percent(inside.interval.high)}), ${places.sooner} came sooner, ${places.later} later; ${places.open} are still open.`,
      ),
      pageParagraph(
        'Early failures can be placed before late ones, so in the first years this share reads worse than it is. The numbers expected and found are free of that.',
      ),
      pageParagraph(FORECAST_NOTE),
      {
        kind: 'table',
        caption: 'Years to the next repair, as forecast by the shipped figures for the use made of it.',
        columns: ['Quilt', 'Forecast', 'Found'],
        rows: evidence.map((one) => [
          one.case,
          one.forecast.high >= one.forecast.horizon
            ? `${one.forecast.low.toFixed(1)} to more than ${one.forecast.horizon}`
            : `${one.forecast.low.toFixed(1)} to ${one.forecast.high.toFixed(1)}`,
          sayOutcome(one.outcome),
        ]),
      },
    ],
  };
};

const hidden = ({ hidden: all }: Learned): PageSection => {
  const found = all.reduce((sum, one) => sum + one.found, 0);
  const of = all.reduce((sum, one) => sum + one.thoughtSound, 0);
  return {
    title: 'Hidden damage found on opening',
    pieces:
      all.length === 0
        ? []
        : [
            pageParagraph(
              `${counted(all.length, 'quilt')} opened: ${found} of ${of} units thought sound were not (${(100 * (found / Math.max(1, of))).toFixed(1)} %).`,
            ),
            list(all.map((one) => `${one.case}: ${one.found} of ${one.thoughtSound}`)),
          ],
  };
};

const worthALook = ({ rules: all }: Learned): PageSection => ({
  title: 'Rules worth a look',
  pieces: [
    ...all
      .filter((one) => one.worthALook.length > 0)
      .map((one) =>
        list([
          `${one.rule} (${one.title}): ${listed(one.worthALook)}${one.overridden.length === 0 ? '' : `. ${one.overridden.map(({ case: of, chosen, because }) => `${of}: ${chosen}, because ${because}`).join('; ')}`}`,
        ]),
      ),
  ],
});

const rules = ({ rules: all }: Learned): PageSection => {
  const spoken = all.filter((one) => one.decided > 0 || one.overridden.length > 0);
  const silent = all.filter((one) => one.fired === 0).length;
  return {
    title: 'Rules over these cases',
    pieces:
      spoken.length === 0
        ? []
        : [
            {
              kind: 'table',
              caption:
                'Rules that decided: without them standing or treatment would have been another. Outcomes are of the quilts they decided on.',
              columns: [
                'Rule',
                'True',
                'Decided',
                'Overridden',
                'Followed up',
                'Repair due',
                'Sooner than forecast',
              ],
              rows: spoken.map((one) => [
                one.rule,
                String(one.fired),
                String(one.decided),
                String(one.overridden.length),
                String(one.outcomes.followed),
                String(one.outcomes.due),
                String(one.outcomes.sooner),
              ]),
            },
            pageParagraph(
              `${all.length - silent - spoken.length} more were true and decided nothing; ${silent} were never true here.`,
            ),
          ],
  };
};
