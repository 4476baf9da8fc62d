import { LAYOUT_RULES } from '../casebook/positions.ts';
import { type FindingDef, pathOf } from '../findings/vocabulary.ts';
import type { Path } from '../source/source.ts';
import { ASIDE, answerAt, numberAt, textAt } from './answers.ts';
import { familiesOf, familiesSection } from './families-section.ts';
import { findingQuestion, findingsSection } from './finding-question.ts';
import { layoutOf, layoutSection, quiltSection } from './layout-section.ts';
import { asCount, badReference, plainQuestion } from './plain-question.ts';
import { type InterviewSession, inStretch, type Question, type Section } from './question.ts';
import { unitsBy, unitsSection } from './units-section.ts';

/** Photos show some things and never others; cloth may be graded from them, as that grade or a worse one. */
const canSee = (def: FindingDef, { answers }: InterviewSession): boolean =>
  def.who !== 'in hand' || def.kind === 'grade' || textAt(answers, ['survey', 'seen']) !== 'photos';

const byLooking = (def: FindingDef, session: InterviewSession): boolean =>
  def.who !== 'client' && canSee(def, session);

const seenSection: Section = (session) => {
  const { answers, vocabulary } = session;
  const seen = vocabulary.findings.get('seen');
  const intro = ['This look at it'];
  return [
    ...(seen === undefined
      ? []
      : [findingQuestion(seen, session, { path: ['survey', 'seen'], intro, required: true })]),
    plainQuestion(answers, {
      path: ['survey', 'by'],
      ask: 'Who is looking? A reference, no names.',
      label: 'looked at by',
      example: 'helper-a',
      intro,
      read: (raw) => {
        const flaw = badReference(raw, 'survey.by');
        return flaw === undefined ? { value: raw.trim() } : { flaw };
      },
    }),
  ];
};

/** Fibres that cannot shatter as weighted silk does. Not known is not "no silk". */
const mayBeSilk = (session: InterviewSession): boolean => {
  const letters = familiesOf(session).map(({ letter }) => letter);
  const fibres = letters.map((letter) => textAt(session.answers, ['survey', 'families', letter, 'fibre']));
  return (
    fibres.length === 0 ||
    fibres.some((fibre) => fibre === undefined || fibre === 'silk' || fibre === 'blend')
  );
};

/** Findings that later answers may make needless: they wait until the fabrics and the map are told. */
const WAITING: Readonly<Record<string, (session: InterviewSession) => boolean>> = {
  shattering_silk: mayBeSilk,
  loss_in_outer_rows_only: (session) => !['map', 'list'].includes(String(unitsBy(session))),
};

const inGroup = (group: string) => (def: FindingDef, session: InterviewSession) =>
  def.group === group && WAITING[def.id] === undefined && byLooking(def, session);

/** Whatever is left, and does not follow from what was told. */
const theRest = (def: FindingDef, session: InterviewSession): boolean =>
  byLooking(def, session) && (WAITING[def.id]?.(session) ?? true);

const openOnes = findingsSection((def) => def.who === 'client');

/** What only the client can tell comes last, and only if it is wanted: the quilt lies on the table now. */
const clientSection: Section = (session) => {
  const unanswered = openOnes(session).filter(({ answered }) => !answered);
  const open = unanswered.length;
  const path = [ASIDE, 'client'];
  if (open === 0 && answerAt(session.answers, path) === undefined) return [];
  const asked = plainQuestion(session.answers, {
    path,
    ask: `Only the client can answer ${open} more. Ask them now?`,
    label: 'questions to the client',
    choices: [
      { value: 'yes', label: 'yes, the client is here' },
      { value: 'no', label: 'no, later' },
    ],
    intro: ['From the client'],
  });
  const gate = { ...asked, bearsOn: unanswered.flatMap(({ bearsOn = [] }) => bearsOn) };
  return answerAt(session.answers, path) === 'yes' ? [gate, ...openOnes(session)] : [gate];
};

/** Sections asked in full whatever the answer: how it is seen, safety, and the size. */
export const SURVEY_OPENING = 3;

const CAUSES = {
  thread: 'the thread broke and the cloth is whole',
  cloth: 'the cloth tore or slipped at the stitches',
  allowance: 'the seam allowance ravelled away',
} as const;

const INTRO = ['The seams between units'];

/** Seams looked at, seams open, and why: the causes must add up to the open ones, which the case file's checks see to. */
const joinsSection: Section = (session) => {
  const { answers } = session;
  const layout = layoutOf(session);
  const all = layout === undefined ? undefined : LAYOUT_RULES[layout.kind].joins(layout);
  const at = (name: string) => ['survey', 'joins', name] as const;
  const open = numberAt(answers, at('open'));
  const count = (name: string, ask: string, label: string, look: string): Question =>
    plainQuestion(answers, {
      path: at(name),
      ask,
      label,
      example: '12',
      intro: INTRO,
      look: [`How to look: ${look}`],
      // Rows and columns give the number of seams.
      read: (raw) =>
        name === 'inspected' && all !== undefined && /^all$/i.test(raw.trim())
          ? { value: all }
          : asCount(label)(raw),
    });
  // Seams listed one by one already say all of this.
  if (answerAt(answers, at('open_at')) !== undefined) return [];
  const told = Object.keys(CAUSES).reduce((sum, cause) => sum + (numberAt(answers, at(cause)) ?? 0), 0);
  return inStretch(
    'seams',
    ['joins.open', 'joins.cloth'],
    [
      count(
        'inspected',
        all === undefined
          ? 'How many seams did you look at?'
          : `How many of the ${all} seams did you look at?`,
        'seams inspected',
        'All of them, or every third row and column and all edges. A seam is the edge two units share.',
      ),
      count(
        'open',
        'How many of those are open or failing?',
        'seams open',
        'A seam open along any part of its length counts as one.',
      ),
      ...(open === undefined || open === 0
        ? []
        : Object.entries(CAUSES)
            .filter(([cause]) => told < open || answerAt(answers, at(cause)) !== undefined)
            .map(([cause, words]) =>
              count(
                cause,
                `In how many of the ${open} is it that ${words}?`,
                `seams: ${words}`,
                'Pull one cut end of the thread: rotten thread snaps dry. Cloth that gave way leaves a fringe or a ladder beside the stitches.',
              ),
            )),
    ],
  );
};

/** Safety first, then what can be seen of the whole, each fabric, each unit and each seam, then all else. */
export const SURVEY: readonly Section[] = [
  seenSection,
  findingsSection((def, session) => def.group === 'safety' && canSee(def, session)),
  quiltSection,
  findingsSection(inGroup('whole')),
  layoutSection,
  findingsSection(inGroup('layers')),
  familiesSection,
  unitsSection,
  joinsSection,
  findingsSection(theRest),
  clientSection,
];

/** A second survey is blind: nothing of the client's wishes bears on what is seen. */
export const SECOND_SURVEY: readonly Section[] = SURVEY.filter((section) => section !== clientSection);

/** Where grades of cloth stand in these answers. Those given from photos must be given anew once it is in hand. */
export const gradePaths = ({ answers, vocabulary }: InterviewSession): Path[] => {
  const letters = familiesOf({ answers, vocabulary }).map(({ letter }) => letter);
  const own = [...vocabulary.findings.values()].filter(({ kind }) => kind === 'grade');
  const families = [...vocabulary.family.values()].filter(({ kind }) => kind === 'grade');
  return [
    ...own.map(pathOf).filter((path) => path !== undefined),
    ...letters.flatMap((letter) =>
      families.map(({ at }) => at.split('.').map((step) => (step === '*' ? letter : step))),
    ),
  ];
};

/** Groups of the vocabulary that are looked at again once the quilt is in hand. */
const LOOKED_AT: ReadonlySet<string> = new Set(['safety', 'whole', 'layers']);

/** Where answers stand that were told by telephone or seen in pictures, and that somebody with the quilt in hand can check. */
export const toldPaths = ({ vocabulary }: InterviewSession): Path[] => [
  ['quilt', 'size', 'width'],
  ['quilt', 'size', 'height'],
  ...[...vocabulary.findings.values()]
    .filter(({ group, kind, id }) => LOOKED_AT.has(group) && kind !== 'grade' && id !== 'seen')
    .map(pathOf)
    .filter((path) => path !== undefined),
];
