import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import { type Answers, answerAt, mergedAnswers, UNKNOWN, withAnswer } from '../../interview/answers.ts';
import { checkedCaseName, noSuchCase } from '../../interview/draft.ts';
import type { InterviewPlan } from '../../interview/interview.ts';
import { gradePaths, SURVEY, SURVEY_OPENING } from '../../interview/survey.ts';
import { openStudio } from '../../store/studio.ts';
import type { Terminal } from '../../store/terminal.ts';
import { type Action, studioOptions } from '../command.ts';
import { mayAsk, openPrompter, runInterview } from './run-interview.ts';

const SEEN = ['survey', 'seen'] as const;

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const name = checkedCaseName(typed.args[0] ?? '');
  if (!existsSync(join(studio.casesFolder, `${name}.yaml`))) throw noSuchCase(name, studio.casesFolder);
  if (typed.options.as !== undefined) {
    const { secondSurvey } = await import('./second-survey.ts');
    return secondSurvey(typed, terminal, studio, name);
  }
  const prompter = mayAsk(typed, terminal) ? await openPrompter(terminal) : undefined;
  const plan = surveyPlan(studio.knowledge.vocabulary, terminal);
  return runInterview(typed, terminal, { plan, name, studio, prompter });
};

/** How it is seen is asked at each survey; grades given from photos are asked again, or they would count as felt. */
const surveyPlan = (vocabulary: Vocabulary, terminal: Terminal): InterviewPlan => ({
  command: 'survey',
  sections: SURVEY,
  opening: SURVEY_OPENING,
  known: (answers) => {
    if (answerAt(answers, SEEN) !== 'photos') return answers;
    return withoutGrades(withAnswer(answers, SEEN, undefined), vocabulary);
  },
  finish: (said, before) => {
    const dated = mergedAnswers({ survey: { on: terminal.today() } }, said);
    const upgraded = answerAt(before, SEEN) === 'photos' && answerAt(said, SEEN) === 'in hand';
    if (!upgraded) return dated;
    // A grade that was not given anew is taken out: it was only ever seen in a photo.
    return gradePaths({ answers: before, vocabulary })
      .filter((path) => answerAt(before, path) !== undefined && answerAt(said, path) === undefined)
      .reduce((answers, path) => withAnswer(answers, path, UNKNOWN), dated);
  },
});

const withoutGrades = (answers: Answers, vocabulary: Vocabulary): Answers =>
  gradePaths({ answers, vocabulary }).reduce<Answers>(
    (rest, path) => (answerAt(rest, path) === undefined ? rest : withAnswer(rest, path, undefined)),
    answers,
  );
