import { ProblemError } from '../../problems/problem.ts';
import { answerAt, mergedAnswers } from '../ask/answers.ts';
import { ENQUIRY, ENQUIRY_OPENING } from '../ask/enquiry.ts';
import type { InterviewPlan } from '../ask/interview.ts';
import { checkedCaseName, nameQuestion } from '../ask/interview-name.ts';
import type { Action } from '../command.ts';
import { studioOptions } from '../command.ts';
import { openStudio } from '../studio.ts';
import { mayAsk, openPrompter, runInterview } from './interview.ts';

const PLAN: InterviewPlan = {
  command: 'enquiry',
  sections: ENQUIRY,
  opening: ENQUIRY_OPENING,
  known: (answers) => answers,
  // A first message comes with photos: nobody has had it in hand yet.
  finish: (said, before) =>
    answerAt(mergedAnswers(before, said), ['survey', 'seen']) === undefined
      ? mergedAnswers(said, { survey: { seen: 'photos' } })
      : said,
};

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
    plan: PLAN,
    name: checkedCaseName(name ?? ''),
    studio,
    prompter,
  });
};
