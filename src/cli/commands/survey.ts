import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import { answerAt, mergedAnswers, textAt, UNKNOWN, withAnswer, without } from '../../interview/answers.ts';
import { checkedCaseName, noSuchCase } from '../../interview/draft.ts';
import { ENQUIRY } from '../../interview/enquiry.ts';
import { answersOf, type InterviewPlan } from '../../interview/interview.ts';
import { questionMeant } from '../../interview/look-up.ts';
import { pathOfId, questionsOf, type Section } from '../../interview/question.ts';
import {
  gradePaths,
  SECOND_SURVEY,
  SURVEY,
  SURVEY_OPENING,
  uncheckedIn,
  withKnownBy,
} from '../../interview/survey.ts';
import { ProblemError } from '../../problems/problem.ts';
import { openCase } from '../../store/case-store.ts';
import { openStudio, type Studio } from '../../store/studio.ts';
import type { Terminal } from '../../store/terminal.ts';
import { type Action, type ExitCode, studioOptions, type Typed, textOption } from '../command.ts';
import { furtherLook, isFurtherLook, laterSays } from './further-look.ts';
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
  if (isFurtherLook(typed)) return furtherLook(typed, terminal, studio, name);
  refuseStray(typed);
  const change = textOption(typed, 'change');
  if (change !== undefined) return changeOne(typed, terminal, { studio, name, wanted: change });
  const prompter = mayAsk(typed, terminal) ? await openPrompter(terminal) : undefined;
  const plan = surveyPlan(studio.knowledge.vocabulary, terminal);
  return runInterview(typed, terminal, { plan, name, studio, prompter });
};

/** Options of a further look say nothing without one: they are refused, not passed over. */
function refuseStray(typed: Typed): void {
  const stray = (['by', 'photo'] as const).find((name) => {
    const value = typed.options[name];
    return Array.isArray(value) ? value.length > 0 : value !== undefined;
  });
  if (stray === undefined) return;
  throw new ProblemError([
    {
      code: 'usage',
      severity: 'error',
      what: `--${stray} goes with a further look`,
      cure: 'Say what was seen: add --set B3=x for a square, --opened, or the day with --on. For a first survey use --set survey.by=helper-a.',
    },
  ]);
}

/** Everything that can be asked of a quilt, at whichever time it was answered. */
const ALL: readonly Section[] = [...SECOND_SURVEY, ...ENQUIRY];

/** One question put again, with the answer it has; everything else stays as it is. */
const changeOne = async (
  typed: Typed,
  terminal: Terminal,
  { studio, name, wanted }: { studio: Studio; name: string; wanted: string },
): Promise<ExitCode> => {
  const { vocabulary } = studio.knowledge;
  const opened = await openCase(join(studio.casesFolder, `${name}.yaml`), studio);
  const answers = answersOf(opened);
  const meant = questionMeant(wanted, questionsOf(ALL, { answers, vocabulary }));
  if ('flaw' in meant) {
    const cure = '"mendwise explain" lists the findings; a fabric is named like B.fragility.';
    throw new ProblemError([{ severity: 'error', ...meant.flaw, cure }]);
  }
  const { id, label } = meant.question;
  if (!mayAsk(typed, terminal))
    throw new ProblemError([
      {
        code: 'needs-terminal',
        severity: 'error',
        what: `${label} cannot be asked for here`,
        cure: `Give the answer: mendwise survey ${name} --set "${id}=…"`,
      },
    ]);
  const later = laterSays(opened.case, pathOfId(id));
  if (later !== undefined)
    terminal.err(
      `Note: the look on ${later} states ${label} too, and goes on to hold: correct it there as well.`,
    );
  const plan: InterviewPlan = {
    command: 'survey',
    sections: ALL,
    only: id,
    known: (before) => before,
    finish: (said) => said,
  };
  return runInterview(typed, terminal, { plan, name, studio, prompter: await openPrompter(terminal) });
};

/** How it is seen is asked at each survey; grades given from photos are asked again, or they would count as felt. */
const surveyPlan = (vocabulary: Vocabulary, terminal: Terminal): InterviewPlan => ({
  command: 'survey',
  sections: SURVEY,
  opening: SURVEY_OPENING,
  known: (answers) => {
    if (answerAt(answers, SEEN) !== 'photos') return answers;
    return without(withAnswer(answers, SEEN, undefined), gradePaths({ answers, vocabulary }));
  },
  askedAgain: (answers) => uncheckedIn({ answers, vocabulary }),
  newly: (answers) => gradePaths({ answers, vocabulary }),
  finish: (said, before) => {
    const how = textAt(mergedAnswers(before, said), SEEN) === 'photos' ? 'photos' : 'in hand';
    const known = withKnownBy(said, how, { answers: before, vocabulary });
    const upgraded = answerAt(before, SEEN) === 'photos' && answerAt(said, SEEN) === 'in hand';
    // What is added or corrected later was seen on the day of the survey; what the client wishes has no day.
    const looked = said.survey !== undefined || said.quilt !== undefined;
    const newly = looked && (upgraded || answerAt(before, ['survey', 'on']) === undefined);
    const dated = newly ? mergedAnswers({ survey: { on: terminal.today() } }, known) : known;
    if (!upgraded) return dated;
    // A grade that was not given anew is taken out: it was only ever seen in a photo.
    return gradePaths({ answers: before, vocabulary })
      .filter((path) => answerAt(before, path) !== undefined && answerAt(said, path) === undefined)
      .reduce((answers, path) => withAnswer(answers, path, UNKNOWN), dated);
  },
});
