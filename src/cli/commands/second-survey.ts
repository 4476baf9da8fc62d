import { basename, join } from 'node:path';
import { asSurveyed, readSecondSurvey } from '../../casebook/second-survey.ts';
import { findingReader } from '../../findings/read-answer.ts';
import { type Answers, answerAt, mergedAnswers, withAnswer } from '../../interview/answers.ts';
import { newCaseText, plainData } from '../../interview/draft.ts';
import type { InterviewPlan } from '../../interview/interview.ts';
import { SECOND_SURVEY } from '../../interview/survey.ts';
import { ProblemError } from '../../problems/problem.ts';
import { openCase } from '../../store/case-store.ts';
import { saveText } from '../../store/save-text.ts';
import { secondSurveyPath } from '../../store/second-surveys.ts';
import { relativeName, type Studio } from '../../store/studio.ts';
import type { Terminal } from '../../store/terminal.ts';
import { type ExitCode, type Typed, textOption } from '../command.ts';
import { mayAsk, openPrompter, runInterview } from './run-interview.ts';

/** What both surveyors are told, so that they speak of the same units and fabrics: never anything the first one judged. */
const TOLD = [
  ['quilt', 'size'],
  ['quilt', 'layout'],
  ['quilt', 'construction'],
  ['survey', 'family_map'],
] as const;

/** A second, blind survey of a case, written to a file of its own. */
export const secondSurvey = async (
  typed: Typed,
  terminal: Terminal,
  studio: Studio,
  caseName: string,
): Promise<ExitCode> => {
  const helper = textOption(typed, 'as') ?? '';
  const { case: base, source } = await openCase(join(studio.casesFolder, `${caseName}.yaml`), studio);
  const file = secondSurveyPath(join(studio.casesFolder, `${caseName}.yaml`), base, helper);
  const told = toldTo(helper, plainData(source.value) as Answers);
  const plan: InterviewPlan = {
    command: 'survey',
    sections: SECOND_SURVEY,
    known: () => told,
    finish: (said) => mergedAnswers({ survey: { on: terminal.today() } }, said),
    write: async (said) => {
      const text = secondSurveyText(caseName, helper, mergedAnswers(toldOf(told), said));
      const reading = readSecondSurvey(
        relativeName(file),
        text,
        findingReader(studio.knowledge.vocabulary),
        base,
      );
      if (reading.survey === undefined) throw new ProblemError(reading.problems);
      await saveText(file, text);
      return { case: asSurveyed(base, reading.survey), warnings: reading.problems };
    },
  };
  const prompter = mayAsk(typed, terminal) ? await openPrompter(terminal) : undefined;
  return runInterview(typed, terminal, { plan, name: basename(file, '.yaml'), studio, prompter });
};

const toldTo = (helper: string, first: Answers): Answers => {
  let told = withAnswer({}, ['survey', 'by'], helper);
  for (const path of TOLD) {
    const value = answerAt(first, path);
    if (value !== undefined) told = withAnswer(told, path, value);
  }
  for (const [letter, family] of Object.entries(answerAt(first, ['survey', 'families']) ?? {})) {
    const name = answerAt({ family }, ['family', 'name']);
    told = withAnswer(told, ['survey', 'families', letter, 'name'], name ?? letter);
  }
  return told;
};

/** Of what was told, what belongs into the second survey's own file: who made it, and which letter is which cloth. */
const toldOf = (told: Answers): Answers => ({ survey: told.survey });

const secondSurveyText = (caseName: string, helper: string, said: Answers): string => {
  const { survey, quilt } = said;
  const whole = newCaseText('unnamed', 'today', { ...(quilt === undefined ? {} : { quilt }), survey });
  return whole.replace(/^case: unnamed\nopened: today\n/m, `survey_of: ${caseName}\nby: ${helper}\n`);
};
