import type { LayoutSpec } from '../casebook/model.ts';
import { answerAt, numberAt, textAt } from './answers.ts';
import { asCount, badReference, plainQuestion } from './plain-question.ts';
import { type InterviewSession, inStretch, type Question, type Section } from './question.ts';
import { typedMeasure, typedSides } from './typed.ts';

const KINDS: Readonly<Record<LayoutSpec['kind'], string>> = {
  'edge to edge': 'blocks or patches edge to edge',
  sashed: 'blocks with strips between them',
  'on point': 'blocks standing on a corner',
  'survey grid': 'no blocks: a grid laid over it for the survey',
};

const isKind = (word: string | undefined): word is LayoutSpec['kind'] =>
  word !== undefined && Object.hasOwn(KINDS, word);

/** The layout as far as a map needs it: kind, rows and columns; undefined until all three are said. */
export const layoutOf = ({ answers }: Pick<InterviewSession, 'answers'>): LayoutSpec | undefined => {
  const kind = textAt(answers, ['quilt', 'layout', 'kind']);
  const rows = numberAt(answers, ['quilt', 'layout', 'rows']);
  const columns = numberAt(answers, ['quilt', 'layout', 'columns']);
  return isKind(kind) && rows !== undefined && columns !== undefined ? { kind, rows, columns } : undefined;
};

/** How the units are set, counted from the viewer's top left. */
export const layoutSection: Section = ({ answers, units }) => {
  const at = (name: string) => ['quilt', 'layout', name] as const;
  const kind = textAt(answers, at('kind'));
  const intro = ['How the units are set'];
  const count = (name: string, ask: string, look: string): Question =>
    plainQuestion(answers, {
      path: at(name),
      ask,
      label: `layout: ${name.replaceAll('_', ' ')}`,
      example: '8',
      intro,
      look: [`How to look: ${look}`],
      read: asCount(`layout: ${name.replaceAll('_', ' ')}`, 1),
    });
  const first = plainQuestion(answers, {
    path: at('kind'),
    ask: 'How are the blocks or patches set?',
    label: 'layout',
    choices: Object.entries(KINDS).map(([value, label]) => ({ value, label })),
    intro,
    look: [
      'How to look: Stand at the foot and look at the top. Without a map of units the survey can only give numbers.',
    ],
  });
  const layout = (questions: readonly Question[]) => inStretch('layout', ['lost'], questions);
  if (!isKind(kind)) return layout([first]);
  const grid = kind === 'survey grid';
  return layout([
    first,
    count('rows', 'How many rows?', 'Count down the left side.'),
    count('columns', 'How many in a row?', 'Count along the top row; on point, count the whole blocks.'),
    ...(grid
      ? []
      : [
          plainQuestion(answers, {
            path: at('finished'),
            ask: 'What is the finished size of one unit, width first?',
            label: 'layout: size of a unit',
            example: '9 in x 9 in',
            intro,
            read: (raw) => ({ value: typedSides(raw, units) }),
            look: [
              'How to look: Seam to seam, without allowances. Measure five and take the one most often met.',
            ],
          }),
        ]),
    ...(kind === 'sashed'
      ? [
          plainQuestion(answers, {
            path: at('sashing'),
            ask: 'How wide are the strips between them, finished?',
            label: 'layout: strips',
            example: '2 in',
            intro,
            read: (raw) => ({ value: typedMeasure('length', raw, units) }),
          }),
        ]
      : []),
    ...(grid || answerAt(answers, ['quilt', 'construction']) === 'wholecloth'
      ? []
      : [
          count(
            'pieces_per_unit',
            'How many pieces are in one unit?',
            'A plain square is one piece, a nine-patch nine.',
          ),
        ]),
  ]);
};

const side = (
  name: 'width' | 'height',
  way: string,
  units: InterviewSession['units'],
): Parameters<typeof plainQuestion>[1] => ({
  path: ['quilt', 'size', name],
  ask: `How ${way} is it, borders and all?`,
  label: `its ${name}`,
  example: '72 in or 183 cm',
  required: true,
  intro: ['The quilt itself'],
  read: (raw) => ({ value: typedMeasure('length', raw, units) }),
  look: [
    'How to look: Lay it flat without pulling. Old quilts are seldom square: measure at three places and take the largest.',
  ],
});

/** What it is called and how large it is. Only the size is needed. */
export const quiltSection: Section = ({ answers, units }) => [
  plainQuestion(answers, side('width', 'wide', units)),
  plainQuestion(answers, side('height', 'long', units)),
  plainQuestion(answers, {
    path: ['quilt', 'title'],
    ask: 'What shall it be called?',
    label: 'title',
    example: 'Nine-patch spread, indigo and shirtings',
  }),
];

/** Who asks, by a reference: names of persons are not kept. */
export const clientSection: Section = ({ answers }) => [
  plainQuestion(answers, {
    path: ['client', 'ref'],
    ask: 'Which reference does the client have? No names, please.',
    label: 'client reference',
    example: 'C-014',
    intro: ['The client'],
    read: (raw) => {
      const flaw = badReference(raw, 'client.ref');
      return flaw === undefined ? { value: raw.trim() } : { flaw };
    },
  }),
];
