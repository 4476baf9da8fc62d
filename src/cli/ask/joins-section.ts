import { answerAt, numberAt } from './answers.ts';
import { asNumber, plainQuestion } from './plain-question.ts';
import { inStretch, type Question, type Section } from './question.ts';

const CAUSES = {
  thread: 'the thread broke and the cloth is whole',
  cloth: 'the cloth tore or slipped at the stitches',
  allowance: 'the seam allowance ravelled away',
} as const;

const INTRO = ['The seams between units'];

/** Seams looked at, seams open, and why: the causes must add up to the open ones, which the case file's checks see to. */
export const joinsSection: Section = ({ answers }) => {
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
      read: asNumber,
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
        'How many seams did you look at?',
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
