import { plainQuestion } from './plain-question.ts';
import type { Section } from './question.ts';
import { badReference } from './references.ts';

const side = (name: 'width' | 'height', way: string): Parameters<typeof plainQuestion>[1] => ({
  path: ['quilt', 'size', name],
  ask: `How ${way} is it, borders and all?`,
  label: `its ${name}`,
  example: '72 in or 183 cm',
  required: true,
  intro: ['The quilt itself'],
  look: [
    'How to look: Lay it flat without pulling. Old quilts are seldom square: measure at three places and take the largest.',
  ],
});

/** What it is called and how large it is. Only the size is needed. */
export const quiltSection: Section = ({ answers }) => [
  plainQuestion(answers, side('width', 'wide')),
  plainQuestion(answers, side('height', 'long')),
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
