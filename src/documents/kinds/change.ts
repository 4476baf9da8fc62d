import type { FurtherMark, QuiltCase } from '../../casebook/model.ts';
import { rowName } from '../../casebook/positions.ts';
import type { UnitState } from '../../casebook/scales.ts';
import type { DocumentContext } from '../document-context.ts';
import { type Block, paragraph, type Section, type Table } from '../model.ts';
import { daysAfter, sentenceCase } from '../phrases.ts';
import { STATE_LOOKS } from '../pictures/picture.ts';
import { forHome, saidSection } from '../sections/choice.ts';
import { likelyReady, sinceApprovalSection, unagreed } from '../sections/decided.ts';
import { done } from '../sections/options.ts';
import { foundMap } from '../sections/quilt-pictures.ts';
import { unsafeReason } from '../sections/safety.ts';
import { frame, type Kind } from './frame.ts';

/** After a further look: which squares are otherwise, what that does to hours, price, years and day, and a new yes or no. */
export const changeOrder: Kind = {
  name: 'change',
  summary: 'what a further look brought, the new figures beside those approved, and room to approve them',
  questions: false,
  unfit: (doc) => {
    const { answer, papers } = doc;
    if (answer.since_approval === null)
      return 'no approval is on record: write approved: with its day, hours and price into the case first';
    if (papers.decision.whenApproved === undefined)
      return 'nobody has looked at it again since the client approved, so nothing has changed';
    return unsafeReason(doc) ?? unagreed(doc, 'nothing to approve', 'the client is asked again');
  },
  write(doc) {
    const { way, answer } = doc;
    return frame(
      doc,
      doc.say('change.title'),
      [
        { blocks: [paragraph(opening(doc))] },
        ...squaresSection(doc),
        ...sinceApprovalSection(doc),
        ...(way === undefined
          ? []
          : [
              {
                title: doc.say('change.work'),
                blocks: [{ kind: 'list', items: done(way, doc) } satisfies Block, ...late(doc)],
              },
            ]),
        ...saidSection('Take care', forHome((way ?? answer).cautions)),
        ...saidSection('Questions to you', way?.asks ?? []),
        choiceSection(doc),
      ],
      'stands until',
    );
  },
};

function opening(doc: DocumentContext): string {
  const { situation, answer } = doc;
  const looked = situation.quiltCase.resurveys.flatMap(({ on }) => on ?? []).sort();
  const [last] = looked.slice(-1);
  const approved = answer.since_approval?.approved_on ?? undefined;
  return [
    doc.say(last === undefined ? 'change.looked' : 'change.looked_on', {
      on: last === undefined ? '' : doc.date(last),
    }),
    ...(approved === undefined ? [] : [doc.say('change.approved', { on: doc.date(approved) })]),
    doc.say('change.wait'),
  ].join(' ');
}

/** Every square that is otherwise than on the map the client approved by; left out where neither look had a map. */
function squaresSection(doc: DocumentContext): Section[] {
  const then = doc.papers.decision.whenApproved?.situation.quiltCase;
  const now = doc.situation.quiltCase;
  const rows = then === undefined ? [] : changedSquares(then, now);
  const map = foundMap(doc, 'found');
  if (rows.length === 0) return [];
  return [
    {
      title: doc.say('change.squares'),
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
function late(doc: DocumentContext): Block[] {
  const weeks = doc.facts['finding.deadline_weeks'];
  const ready = likelyReady(doc, doc.answer.as_of, doc.agreed?.estimator.hours().likely);
  if (typeof weeks !== 'number' || ready === undefined) return [];
  const wanted = daysAfter(doc.answer.as_of, Math.round(weeks * 7));
  if (ready <= wanted) return [];
  return [paragraph([{ strong: doc.say('change.late', { wanted: doc.date(wanted) }) }])];
}

/** The price as it may come out, and what the client may say to it. */
function choiceSection(doc: DocumentContext): Section {
  const price = doc.way?.estimates.price;
  const [low, likely, high] = [price?.low ?? 0, price?.likely ?? 0, price?.high ?? 0].map((each) =>
    doc.money(each),
  );
  return {
    title: doc.say('change.choice'),
    blocks: [
      {
        kind: 'paragraph',
        tone: 'lead',
        text: [
          {
            strong: doc.say('estimate.price', { low: low ?? '', likely: likely ?? '', high: high ?? '' }),
          },
        ],
      },
      {
        kind: 'choices',
        question: doc.say('change.question'),
        options: doc.items('change.answers', { high: high ?? '' }),
        lines: 2,
      },
      { kind: 'signatures', labels: doc.items('decision.signatures') },
    ],
  };
}
