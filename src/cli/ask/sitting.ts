import { existsSync } from 'node:fs';
import { certainDeclines } from '../../decision/certain-declines.ts';
import { contextOf } from '../../decision/context.ts';
import { Bearings } from '../../decision/questions/bearing.ts';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import { ProblemError } from '../../problems/problem.ts';
import { counted, outcomeWords } from '../print/labels.ts';
import { relativeName, type Studio } from '../studio.ts';
import { type Answers, answerAt, mergedAnswers, textAt } from './answers.ts';
import { candidateOf } from './candidate.ts';
import { converse, type Prompter } from './converse.ts';
import type { Course } from './course.ts';
import type { Draft } from './draft.ts';
import type { InterviewSetting } from './interview.ts';
import { type Question, questionsOf } from './question.ts';

/** One sitting: what is answered already, then the questions; Ctrl-C ends it with every confirmed answer kept. */
export async function sit(
  setting: InterviewSetting,
  known: Answers,
  given: Answers,
  draft: Draft,
  prompter: Prompter,
): Promise<Answers> {
  const { plan, studio, terminal, name } = setting;
  const { vocabulary } = studio.knowledge;
  const start = questionsOf(plan.sections, { answers: mergedAnswers(known, given), vocabulary });
  prompter.tell(opening(name, draft.resumed, start));
  const told = new Set<string>();
  const bearings = new Bearings(contextOf(studio, terminal.today()));
  try {
    return await converse({
      interview: plan.sections,
      vocabulary,
      known,
      said: given,
      prompter,
      confirmed: draft.save,
      ...(plan.opening === undefined ? {} : { course: courseOf(plan.opening, bearings, vocabulary) }),
      settled: async (open, { answers }) => {
        const { case: quiltCase } = candidateOf(answers, vocabulary);
        const verdict = quiltCase === undefined ? undefined : bearings.verdict(quiltCase);
        const answer = verdict === undefined ? '' : `: ${outcomeWords(verdict)}`;
        const later =
          textAt(answers, ['survey', 'seen']) === 'in hand' ? '' : ' Seeing the quilt in hand still may.';
        prompter.tell([
          `Nothing still open here changes the answer${answer}.${later}`,
          `${counted(open.length, 'question')} ${open.length === 1 ? 'is' : 'are'} left; they make hours, price and years surer.`,
        ]);
        return offerToStop(prompter);
      },
      enough: async (answers) => {
        const rules = declines(answers, studio, terminal.today()).filter(({ id }) => !told.has(id));
        const [rule] = rules;
        for (const { id } of rules) told.add(id);
        if (rule === undefined) return false;
        prompter.tell([
          `On what has been said this quilt will be declined: ${rule.title}.`,
          'No later answer changes that. If it was a slip, go on and choose back.',
        ]);
        return offerToStop(prompter);
      },
    });
  } catch (error) {
    if (!(error instanceof Error) || error.name !== 'ExitPromptError') throw error;
    throw new ProblemError([
      {
        code: 'interrupted',
        severity: 'error',
        what: existsSync(draft.path)
          ? `Stopped. Every answer you confirmed is kept in ${relativeName(draft.path)}.`
          : 'Stopped. Nothing had been answered yet.',
        cure: `Go on with: ${setting.again}`,
      },
    ]);
  }
}

const opening = (name: string, resumed: boolean, start: readonly Question[]): string[] => {
  const answered = start.filter(({ answered: done }) => done);
  const keys =
    'Enter alone means not known; ? shows how to look; back goes to the question before. Ctrl-C stops: every answer you have confirmed is kept.';
  if (answered.length === 0) return [`${name}: a new interview.`, keys];
  const labels = answered.map(({ label }) => label).join('; ');
  const lead = resumed ? 'going on where it stopped' : 'some of it is known already';
  return [`${name}: ${lead}.`, `Already answered (${answered.length}): ${labels}.`, keys];
};

/** Rules that decline on what has been said; none where what has been said cannot be read as a case. */
const declines = (answers: Answers, studio: Studio, day: string) => {
  const { case: quiltCase } = candidateOf(answers, studio.knowledge.vocabulary);
  if (quiltCase === undefined) return [];
  const sized =
    answerAt(answers, ['quilt', 'size', 'width']) !== undefined &&
    answerAt(answers, ['quilt', 'size', 'height']) !== undefined;
  return certainDeclines(quiltCase, contextOf(studio, day), sized);
};

const courseOf = (opening: number, bearings: Bearings, vocabulary: Vocabulary): Course => ({
  opening,
  bearing: ({ answers }, askable) => {
    const { case: quiltCase } = candidateOf(answers, vocabulary);
    return quiltCase === undefined ? [] : bearings.on(quiltCase, askable);
  },
});

const offerToStop = async (prompter: Prompter): Promise<boolean> => {
  const reply = await prompter.ask(
    {
      id: 'stop',
      ask: 'Stop here?',
      label: 'stop',
      choices: [
        { value: 'stop', label: 'stop, and write what is known' },
        { value: 'go on', label: 'go on asking' },
      ],
      look: [],
      required: true,
      answered: false,
      standsAlone: true,
      take: () => ({ answers: {} }),
    },
    () => undefined,
  );
  return reply.kind === 'answer' && reply.raw === 'stop';
};
