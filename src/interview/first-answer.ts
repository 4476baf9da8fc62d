import type { QuiltCase } from '../casebook/model.ts';
import { TOLD_DAMAGE } from '../casebook/scales.ts';
import type { Question } from './question.ts';

/** What to do after a first message, where nothing yet says that the work cannot be done. */
export const nextSteps = (
  quiltCase: QuiltCase,
  questions: readonly Question[],
  safety: ReadonlySet<string>,
): string[] => {
  const { damage = [] } = quiltCase.client;
  const kinds = damage.filter((kind) => kind !== 'none').map((kind) => TOLD_DAMAGE[kind]);
  const open = questions.filter(
    ({ id, now }) => safety.has(id) && (now === undefined || now === 'not known'),
  );
  return [
    ...(open.length === 0
      ? []
      : [`Before it comes in, ask by telephone about: ${open.map(({ label }) => label).join('; ')}.`]),
    ...(damage.length === 0 ? ['Ask what is wrong with it: nobody has said.'] : []),
    `Ask for pictures: the whole front, the whole back${kinds.length === 0 ? '' : `, and close up ${kinds.join('; ')}`}.`,
    'What to do with it can only be said once somebody has had it in hand.',
  ];
};
