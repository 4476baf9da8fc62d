import type { FurtherMark, QuiltCase } from '../../casebook/model.ts';
import { rowName } from '../../casebook/positions.ts';
import type { UnitState } from '../../casebook/scales.ts';
import { type Block, paragraph, type Section, type Table } from '../model.ts';
import { daysAfter, sentenceCase } from '../phrases.ts';
import { STATE_LOOKS } from '../pictures/picture.ts';
import { forHome, saidSection } from '../sections/choice.ts';
import { likelyReady, sinceApprovalSection, unagreed } from '../sections/decided.ts';
import { done } from '../sections/options.ts';
import { foundMap } from '../sections/quilt-pictures.ts';
import { unsafeReason } from '../sections/safety.ts';
import type { Writing } from '../writing.ts';
import { frame, type Kind } from './frame.ts';

/** After a further look: which squares are otherwise, what that does to hours, price, years and day, and a new yes or no. */
export const changeOrder: Kind = {
  name: 'change',
  summary: 'what a further look brought, the new figures beside those approved, and room to approve them',
  questions: false,
  unfit: (writing) => {
    const { answer, papers } = writing;
    if (answer.since_approval === null)
      return 'no approval is on record: write approved: with its day, hours and price into the case first';
    if (papers.decision.whenApproved === undefined)
      return 'nobody has looked at it again since the client approved, so nothing has changed';
    return unsafeReason(writing) ?? unagreed(writing, 'nothing to approve', 'the client is asked again');
  },
  write(writing) {
    const { way, answer } = writing;
    return frame(
      writing,
      writing.say('change.title'),
      [
        { blocks: [paragraph(opening(writing))] },
        ...squaresSection(writing),
        ...sinceApprovalSection(writing),
        ...(way === undefined
          ? []
          : [
              {
                title: writing.say('change.work'),
                blocks: [{ kind: 'list', items: done(way, writing) } satisfies Block, ...late(writing)],
              },
            ]),
        ...saidSection('Take care', forHome((way ?? answer).cautions)),
        ...saidSection('Questions to you', way?.asks ?? []),
        choiceSection(writing),
      ],
      'stands until',
    );
  },
};

function opening(writing: Writing): string {
  const { situation, answer } = writing;
  const looked = situation.quiltCase.resurveys.flatMap(({ on }) => on ?? []).sort();
  const [last] = looked.slice(-1);
  const approved = answer.since_approval?.approved_on ?? undefined;
  return [
    writing.say(last === undefined ? 'change.looked' : 'change.looked_on', {
      on: last === undefined ? '' : writing.date(last),
    }),
    ...(approved === undefined ? [] : [writing.say('change.approved', { on: writing.date(approved) })]),
    writing.say('change.wait'),
  ].join(' ');
}

/** Every square that is otherwise than on the map the client approved by; left out where neither look had a map. */
function squaresSection(writing: Writing): Section[] {
  const then = writing.papers.decision.whenApproved?.situation.quiltCase;
  const now = writing.situation.quiltCase;
  const rows = then === undefined ? [] : changedSquares(then, now);
  const map = foundMap(writing, 'found');
  if (rows.length === 0) return [];
  return [
    {
      title: writing.say('change.squares'),
      blocks: [
        { kind: 'table', caption: 'Square by square', columns: ['Square', 'Before', 'Now'], rows },
        ...(map === undefined ? [] : [{ kind: 'picture', picture: map } satisfies Block]),
      ],
    },
  ];
}

const changedSquares = ({ survey: before }: QuiltCase, { survey: after }: QuiltCase): Table['rows'] =>
  (after.units ?? []).flatMap((row, r) =>
    row.flatMap((state, c): Table['rows'] => {
      const name = `${rowName(r)}${c + 1}`;
      const was = before.units?.[r]?.[c];
      const cells = [
        was === undefined ? 'not noted' : marksInWords(was, name, before.also),
        marksInWords(state, name, after.also),
      ];
      return cells[0] === cells[1] || (was === undefined && state === 'sound') ? [] : [{ name, cells }];
    }),
  );

const marksInWords = (state: UnitState, name: string, also: readonly FurtherMark[] = []): string =>
  sentenceCase(
    [state, ...also.filter(({ at }) => at === name).map((mark) => mark.state)]
      .map((each) => STATE_LOOKS[each].words)
      .join(', '),
  );

/** Where the work would now be ready after the day the client needs it. */
function late(writing: Writing): Block[] {
  const weeks = writing.facts['finding.deadline_weeks'];
  const ready = likelyReady(writing, writing.answer.as_of, writing.agreed?.estimator.hours().likely);
  if (typeof weeks !== 'number' || ready === undefined) return [];
  const wanted = daysAfter(writing.answer.as_of, Math.round(weeks * 7));
  if (ready <= wanted) return [];
  return [paragraph([{ strong: writing.say('change.late', { wanted: writing.date(wanted) }) }])];
}

/** The price as it may come out, and what the client may say to it. */
function choiceSection(writing: Writing): Section {
  const price = writing.way?.estimates.price;
  const [low, likely, high] = [price?.low ?? 0, price?.likely ?? 0, price?.high ?? 0].map((each) =>
    writing.money(each),
  );
  return {
    title: writing.say('change.choice'),
    blocks: [
      {
        kind: 'paragraph',
        tone: 'lead',
        text: [
          {
            strong: writing.say('estimate.price', { low: low ?? '', likely: likely ?? '', high: high ?? '' }),
          },
        ],
      },
      {
        kind: 'choices',
        question: writing.say('change.question'),
        options: writing.items('change.answers', { high: high ?? '' }),
        lines: 2,
      },
      { kind: 'signatures', labels: writing.items('decision.signatures') },
    ],
  };
}
