import type { QuiltCase } from '../../casebook/model.ts';
import { TOLD_DAMAGE } from '../../casebook/scales.ts';
import type { Answer } from '../../decision/answer-model.ts';
import { contextOf } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { mainReasons } from '../../decision/reasons.ts';
import { STANDING_WORDS, sayRecommendation } from '../../decision/words.ts';
import { counted, sentenceCase } from '../../documents/phrases.ts';
import { safetyRows } from '../../documents/terminal/answer.ts';
import { heading, type PageStyle, paragraph } from '../../documents/terminal/layout.ts';
import { pathOf } from '../../findings/vocabulary.ts';
import { isGroup } from '../../interview/answers.ts';
import { answersFromOptions } from '../../interview/answers-from-options.ts';
import {
  holdInterview,
  type InterviewResult,
  type InterviewSetting,
  saidAt,
} from '../../interview/interview.ts';
import type { Question } from '../../interview/question.ts';
import type { Prompter } from '../../interview/question-loop.ts';
import { ProblemError } from '../../problems/problem.ts';
import { relativeName, type Studio } from '../../store/studio.ts';
import type { Terminal } from '../../store/terminal.ts';
import { type ExitCode, listOption, type Typed, textOption } from '../command.ts';

/** Questions are put only to somebody who can answer, and not where --yes says to ask nothing. */
export const mayAsk = (typed: Typed, terminal: Terminal): boolean =>
  terminal.canAsk && typed.options.yes !== true;

/** The prompts are loaded only where something is asked. */
export const openPrompter = async (terminal: Terminal): Promise<Prompter> =>
  (await import('../../interview/prompts.ts')).terminalPrompter(terminal);

type Held = Pick<InterviewSetting, 'plan' | 'name' | 'studio' | 'prompter'>;

/** Holds an interview, and says what came of it: what is known, where it was written, where the quilt stands now. */
export async function runInterview(typed: Typed, terminal: Terminal, held: Held): Promise<ExitCode> {
  const { plan, name, studio } = held;
  const given = await answersFromOptions(
    { from: textOption(typed, 'from'), settings: listOption(typed, 'set') },
    studio.knowledge.vocabulary,
  );
  const again = againWith(typed, plan.command, name);
  let result: InterviewResult;
  try {
    result = await holdInterview({ ...held, terminal, given, again });
  } catch (error) {
    const [stopped] = error instanceof ProblemError ? error.problems : [];
    if (stopped?.code !== 'interrupted') throw error;
    // To stop is no fault: no "error", only where the answers are and how to go on.
    terminal.err(['', stopped.what, stopped.cure ?? ''].join('\n'));
    return 130;
  }
  const { answer } = await decide(result.case, contextOf(studio, terminal.today()));
  const style = { color: terminal.color, width: terminal.width };
  const whatNow =
    plan.unseen === true ? firstAnswer(result, answer, studio, style) : whereItStands(answer, style);
  terminal.out(
    [
      ...summaryOf(result, relativeName(result.path), style),
      ...whatNow,
      ...nextCommand(result, answer, plan.unseen),
    ].join('\n'),
  );
  return 0;
}

const againWith = (typed: Typed, command: string, name: string): string => {
  const folder = textOption(typed, 'studio');
  const studio =
    folder === undefined ? '' : ` --studio ${/^[\w./-]+$/.test(folder) ? folder : `"${folder}"`}`;
  const helper = textOption(typed, 'as');
  // A second survey is named by its file, CASE.HELPER; the command names the two apart.
  return helper === undefined
    ? `mendwise ${command} ${name}${studio}`
    : `mendwise ${command} ${name.slice(0, -helper.length - 1)} --as ${helper}${studio}`;
};

/** After an interview: what is known, how much is not, and where it was written. */
function summaryOf(result: InterviewResult, file: string, style: PageStyle): string[] {
  const known = result.questions.flatMap((question) => {
    const said = saidAt(result.answers, question);
    return said === undefined || isGroup(said) ? [] : [line(question.label, words(question, said), style)];
  });
  const open = result.questions.length - known.length;
  return [
    heading(`${result.case.case}, as far as it is known`, style),
    ...known,
    ...maps(result, style),
    ...(open > 0 ? [`  ${counted(open, 'question')} not answered, which counts as not known.`] : []),
    '',
    paragraph(`Written to ${file}.`, style),
  ];
}

const becauseLines = ({ reasons }: Answer, style: PageStyle): string[] =>
  mainReasons(reasons).map(({ because }) => paragraph(because, style, '  - '));

/** Where the quilt stands on what was found. */
export function whereItStands(answer: Answer, style: PageStyle): string[] {
  return [
    heading(
      `${sentenceCase(sayRecommendation(answer, ': '))}${answer.provisional ? ' (provisional)' : ''}`,
      style,
    ),
    ...becauseLines(answer, style),
    ...safetyRows({ safety: { ...answer.safety, unanswered: [] } }, style),
  ];
}

/** What to do after a first message, where nothing yet says that the work cannot be done. What opens it comes last. */
const nextSteps = (
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
    `${open.length === 0 ? 'Ask' : 'Once they are answered and nothing speaks against opening it, ask'} for pictures: the whole front, the whole back${kinds.length === 0 ? '' : `, and close up ${kinds.join('; ')}`}.`,
    'What to do with it can only be said once somebody has had it in hand.',
  ];
};

/** After a first message: a no is said at once, and where there is none, what to do next. Never what to do with it. */
function firstAnswer(
  { case: quiltCase, questions }: InterviewResult,
  answer: Answer,
  { knowledge: { vocabulary } }: Studio,
  style: PageStyle,
): string[] {
  const verdict =
    answer.standing === 'go_ahead'
      ? []
      : [heading(sentenceCase(STANDING_WORDS[answer.standing]), style), ...becauseLines(answer, style)];
  // While a hazard stands nobody is asked for a picture, nor to bring it: what to do with the closed bag is all there is.
  if (answer.safety.stops.length > 0) return [...safetyRows(answer, style), ...verdict];
  if (answer.standing === 'decline') return verdict;
  const safety = new Set(
    [...vocabulary.findings.values()].flatMap((def) =>
      def.group === 'safety' ? [(pathOf(def) ?? []).join('.')] : [],
    ),
  );
  const steps = nextSteps(quiltCase, questions, safety);
  return [
    ...verdict,
    heading('What to do next', style),
    ...steps.map((step) => paragraph(step, style, '  - ')),
  ];
}

function nextCommand(
  { case: { case: name } }: InterviewResult,
  { safety, standing }: Answer,
  unseen = false,
): string[] {
  if (!unseen) return ['', `Next: mendwise decide ${name}`];
  // What is declined or dangerous is not invited.
  return safety.stops.length > 0 || standing === 'decline'
    ? []
    : ['', `When it is here: mendwise survey ${name}`];
}

const line = (label: string, said: string, style: PageStyle): string =>
  paragraph(`${label}: ${said}`, style, '  ', '    ');

/** A choice by its label; everything else in the words it was given in. */
const words = (question: Question, said: unknown): string =>
  Array.isArray(said)
    ? said.some(isGroup)
      ? (question.now ?? '')
      : said.map((each) => words(question, each)).join(', ')
    : (question.choices.find(({ value }) => value === String(said))?.label ?? String(said).trim());

const maps = ({ case: { survey } }: InterviewResult, style: PageStyle): string[] => {
  const { units, family_map: fabrics } = survey;
  return [
    ...(units === undefined ? [] : [line('map of units', counted(units.flat().length, 'unit'), style)]),
    ...(fabrics === undefined ? [] : [line('map of fabrics', counted(fabrics.flat().length, 'unit'), style)]),
  ];
};
