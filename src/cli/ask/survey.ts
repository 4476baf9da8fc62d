import { type FindingDef, pathOf } from '../../findings/vocabulary.ts';
import type { Path } from '../../source/source.ts';
import { ASIDE, answerAt, textAt } from './answers.ts';
import { familiesOf, familiesSection } from './families-section.ts';
import { findingQuestion } from './finding-question.ts';
import { findingsSection } from './findings-section.ts';
import { joinsSection } from './joins-section.ts';
import { layoutSection } from './layout-section.ts';
import { plainQuestion } from './plain-question.ts';
import type { Hearing, Section } from './question.ts';
import { quiltSection } from './quilt-section.ts';
import { badReference } from './references.ts';
import { unitsSection } from './units-section.ts';

/** Photos show some things and never others; cloth may be graded from them, as that grade or a worse one. */
const canSee = (def: FindingDef, { answers }: Hearing): boolean =>
  def.who !== 'in hand' || def.kind === 'grade' || textAt(answers, ['survey', 'seen']) !== 'photos';

const byLooking = (def: FindingDef, hearing: Hearing): boolean =>
  def.who !== 'client' && canSee(def, hearing);

const seenSection: Section = (hearing) => {
  const { answers, vocabulary } = hearing;
  const seen = vocabulary.findings.get('seen');
  const intro = ['This look at it'];
  return [
    ...(seen === undefined
      ? []
      : [findingQuestion(seen, hearing, { path: ['survey', 'seen'], intro, required: true })]),
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

const inGroup = (group: string) => (def: FindingDef, hearing: Hearing) =>
  def.group === group && byLooking(def, hearing);

const openOnes = findingsSection((def) => def.who === 'client');

/** What only the client can tell comes last, and only if it is wanted: the quilt lies on the table now. */
const clientSection: Section = (hearing) => {
  const unanswered = openOnes(hearing).filter(({ answered }) => !answered);
  const open = unanswered.length;
  const path = [ASIDE, 'client'];
  if (open === 0 && answerAt(hearing.answers, path) === undefined) return [];
  const asked = plainQuestion(hearing.answers, {
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
  return answerAt(hearing.answers, path) === 'yes' ? [gate, ...openOnes(hearing)] : [gate];
};

/** Sections asked in full whatever the answer: how it is seen, safety, and the size. */
export const SURVEY_OPENING = 3;

/** Safety first, then what can be seen of the whole, each fabric, each unit and each seam, then all else. */
export const SURVEY: readonly Section[] = [
  seenSection,
  findingsSection((def, hearing) => def.group === 'safety' && canSee(def, hearing)),
  quiltSection,
  findingsSection(inGroup('whole')),
  layoutSection,
  findingsSection(inGroup('layers')),
  familiesSection,
  unitsSection,
  joinsSection,
  findingsSection(byLooking),
  clientSection,
];

/** A second survey is blind: nothing of the client's wishes bears on what is seen. */
export const SECOND_SURVEY: readonly Section[] = SURVEY.filter((section) => section !== clientSection);

/** Where grades of cloth stand in these answers. Those given from photos must be given anew once it is in hand. */
export const gradePaths = ({ answers, vocabulary }: Hearing): Path[] => {
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
