import type { Vocabulary } from '../../findings/vocabulary.ts';
import { answerAt, mergedAnswers } from '../../interview/answers.ts';
import { checkedCaseName, nameQuestion } from '../../interview/draft.ts';
import { ENQUIRY, ENQUIRY_OPENING } from '../../interview/enquiry.ts';
import type { InterviewPlan } from '../../interview/interview.ts';
import { withKnownBy } from '../../interview/survey.ts';
import { ProblemError } from '../../problems/problem.ts';
import { openStudio } from '../../store/studio.ts';
import { type Action, studioOptions } from '../command.ts';
import { mayAsk, openPrompter, runInterview } from './run-interview.ts';

const planWith = (vocabulary: Vocabulary): InterviewPlan => ({
  command: 'enquiry',
  sections: ENQUIRY,
  opening: ENQUIRY_OPENING,
  unseen: true,
  known: (answers) => answers,
  // A first message comes with photos: nobody has had it in hand yet.
  finish: (said, before) => {
    const told = withKnownBy(said, 'told', { answers: before, vocabulary });
    return answerAt(mergedAnswers(before, said), ['survey', 'seen']) === undefined
      ? mergedAnswers(told, { survey: { seen: 'photos' } })
      : told;
  },
});

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const asking = mayAsk(typed, terminal);
  const [given] = typed.args;
  if (given === undefined && !asking) {
    throw new ProblemError([
      {
        code: 'needs-terminal',
        severity: 'error',
        what: 'The enquiry cannot begin without a name for the quilt',
        cure: 'Give it after the command: mendwise enquiry NAME --set "quilt.size.width=72 in" --set "quilt.size.height=72 in"',
      },
    ]);
  }
  const prompter = asking ? await openPrompter(terminal) : undefined;
  let name = given;
  while (name === undefined && prompter !== undefined) {
    const reply = await prompter.ask(nameQuestion, (raw) => {
      const taken = nameQuestion.take(raw);
      return 'flaw' in taken ? taken.flaw : undefined;
    });
    if (reply.kind === 'answer') name = reply.raw.trim();
  }
  return runInterview(typed, terminal, {
    plan: planWith(studio.knowledge.vocabulary),
    name: checkedCaseName(name ?? ''),
    studio,
    prompter,
  });
};
