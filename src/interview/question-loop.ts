import type { Vocabulary } from '../findings/vocabulary.ts';
import { type Answers, answerAt, mergedAnswers } from './answers.ts';
import {
  type Disagreement,
  disagreementOf,
  faultAlone,
  listOf,
  putAgain,
  questionMeant,
  shownOld,
  wholeOf,
} from './look-up.ts';
import { plainQuestion } from './plain-question.ts';
import {
  type Flaw,
  type InterviewSession,
  missingOf,
  nextQuestion,
  pathOfId,
  type Question,
  questionsOf,
  type Section,
  type Taken,
} from './question.ts';

/** What came back from a prompt. */
export type Reply =
  | { readonly kind: 'answer'; readonly raw: string }
  | { readonly kind: 'back' }
  /** Show what was answered. */
  | { readonly kind: 'list' }
  /** Put an earlier question again: by its number in the list, a finding's name or a label. */
  | { readonly kind: 'change'; readonly wanted: string };

/** Whatever puts questions to a person; a terminal, or a test. */
export interface Prompter {
  /** `fault` says what is wrong with an answer, or nothing; an answer with a fault is asked for again. */
  ask(question: Question, fault: (raw: string) => Flaw | undefined): Promise<Reply>;
  /** Shows lines that are no question. */
  tell(lines: readonly string[]): void;
}

export interface LoopOptions {
  readonly interview: readonly Section[];
  readonly vocabulary: Vocabulary;
  readonly units?: InterviewSession['units'];
  readonly today?: string;
  /** What was known before the interview began. */
  readonly known: Answers;
  /** What was said in it before it was broken off. */
  readonly said: Answers;
  readonly prompter: Prompter;
  /** What the case said before; shown where the same is asked again. */
  readonly old?: Answers;
  /** Questions whose old answer does not stand until it is given anew. */
  readonly newly?: ReadonlySet<string>;
  /** How the old answers are known, by the ids of their questions. */
  readonly knownBy?: ReadonlyMap<string, unknown>;
  /** What is wrong with an answer in view of what the case said before; nothing where it may be taken. */
  refuse?(answers: Answers): Flaw | undefined;
  /** The one question to put, by its id, whether or not it is answered. */
  readonly only?: string;
  /** Called with everything said, each time an answer is confirmed, before the next question is put. */
  confirmed(said: Answers): Promise<void>;
  /** Where what is asked next follows what matters; in the interview's own order where this is absent. */
  readonly course?: Course;
  /** Told once that nothing still open bears on the answer; true ends the interview, except for what it cannot end without. */
  settled?(open: readonly Question[], session: InterviewSession): Promise<boolean>;
  /** Asked at the start and after each answer; true ends the interview early, except for what it cannot end without. */
  enough(answers: Answers): Promise<boolean>;
}

/** Puts the questions that make sense, one after the other, and gives everything said. */
export async function runQuestionLoop(loop: LoopOptions): Promise<Answers> {
  const { interview, known, prompter } = loop;
  let said = loop.said;
  /** Questions to put again, by their ids, before anything new. */
  let again: readonly string[] = loop.only === undefined ? [] : [loop.only];
  /** What was asked in this sitting, the latest last. */
  const trail: string[] = [];
  // What was known before may be enough already.
  let stopped = loop.only !== undefined || (await loop.enough(mergedAnswers(known, said)));
  let course = loop.course;
  let stretch: string | undefined;
  const headings = new Headings();
  for (;;) {
    const session = sessionOf(loop, mergedAnswers(known, said));
    const questions = questionsOf(interview, session);
    const revisited = questions.find(({ id }) => id === again[0]);
    const split = revisited === undefined ? disagreementOf(questions, session) : undefined;
    if (split !== undefined && split.parties.length > 0) {
      again = await partyToCorrect(split, questions, prompter);
      continue;
    }
    again = again.slice(1);
    const next: Question | undefined =
      revisited ??
      (stopped
        ? missingOf(interview, session)[0]
        : course === undefined
          ? nextQuestion(interview, session)
          : nextThatMatters(interview, session, course, stretch));
    if (next === undefined) {
      const open = openQuestions(interview, session);
      if (stopped || course === undefined || open.length === 0) return said;
      course = undefined;
      stopped = (await loop.settled?.(open, session)) ?? true;
      continue;
    }
    const question = next.answered ? putAgain(next, session.answers) : withOld(next, loop);
    headings.introduce(question, prompter);
    const reply = await prompter.ask(question, (raw) => {
      const taken = question.take(raw);
      const refused = 'answers' in taken ? loop.refuse?.(taken.answers) : undefined;
      return faultOf(question, raw, session, interview) ?? refused;
    });
    if (reply.kind === 'list') prompter.tell(listOf(questions));
    if (reply.kind === 'change') {
      const meant = questionMeant(reply.wanted, questions);
      if ('flaw' in meant) prompter.tell([`${sentence(meant.flaw.what)}. ${meant.flaw.cure ?? ''}`]);
      else again = [meant.question.id, next.id];
    }
    if (reply.kind === 'back') {
      const earlier = trail.pop();
      if (earlier === undefined) prompter.tell(['This is the first question of this sitting.']);
      else again = [earlier];
    }
    if (reply.kind !== 'answer') {
      if (again.length === 0 && revisited !== undefined) again = [next.id];
      continue;
    }
    const taken = question.take(reply.raw);
    if ('again' in taken) again = [taken.again];
    if (!('answers' in taken)) continue;
    if (trail.at(-1) !== next.id) trail.push(next.id);
    stretch = next.stretch;
    said = newlySaid(known, taken.answers);
    await loop.confirmed(said);
    if (!stopped) stopped = await loop.enough(taken.answers);
  }
}

const withOld = (question: Question, { old, newly, knownBy }: LoopOptions): Question =>
  old === undefined
    ? question
    : shownOld(question, answerAt(old, pathOfId(question.id)), {
        anew: newly?.has(question.id) === true,
        how: knownBy?.get(question.id),
      });

const sessionOf = ({ vocabulary, units, today }: LoopOptions, answers: Answers): InterviewSession => ({
  answers,
  vocabulary,
  ...(units === undefined ? {} : { units }),
  ...(today === undefined ? {} : { today }),
});

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** Shows answers that do not go together, and asks which of them to correct; gives the questions to put again. */
async function partyToCorrect(
  { problem, parties }: Disagreement,
  questions: readonly Question[],
  prompter: Prompter,
): Promise<readonly string[]> {
  const [only] = parties;
  prompter.tell([`These answers do not go together: ${problem.what}.`]);
  if (only !== undefined && parties.length === 1) return wholeOf(only, questions).map(({ id }) => id);
  const question = plainQuestion(
    {},
    {
      path: ['disagreement'],
      ask: 'Which of them shall be corrected?',
      label: 'what to correct',
      choices: parties.map(({ id, label, now }) => ({
        value: id,
        label: now === undefined ? label : `${label}: ${now}`,
      })),
      required: true,
    },
  );
  for (;;) {
    const reply = await prompter.ask(question, (raw) => flawIn(question.take(raw)));
    if (reply.kind === 'list') prompter.tell(listOf(questions));
    if (reply.kind === 'change') {
      const meant = questionMeant(reply.wanted, questions);
      if ('question' in meant) return [meant.question.id];
      prompter.tell([`${sentence(meant.flaw.what)}. ${meant.flaw.cure ?? ''}`]);
    }
    if (reply.kind !== 'answer') continue;
    const taken = question.take(reply.raw);
    const id = 'answers' in taken ? taken.answers.disagreement : undefined;
    const party = parties.find((each) => each.id === id);
    if (party !== undefined) return wholeOf(party, questions).map((each) => each.id);
  }
}

const flawIn = (taken: Taken): Flaw | undefined => ('flaw' in taken ? taken.flaw : undefined);

/** What the answers hold beyond what was known. */
const newlySaid = (known: unknown, answers: Answers): Answers =>
  Object.fromEntries(
    Object.entries(answers).flatMap(([name, value]): [string, unknown][] => {
      const earlier = isRecord(known) ? known[name] : undefined;
      if (value === earlier) return [];
      if (!isRecord(value) || !isRecord(earlier)) return [[name, value]];
      const inner = newlySaid(earlier, value);
      return Object.keys(inner).length === 0 ? [] : [[name, inner]];
    }),
  );

const isRecord = (value: unknown): value is Answers =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The heading a question stands under, told whenever it is another than the last; a legend is told once. */
class Headings {
  #last: string | undefined;
  readonly #legends = new Set<string>();

  introduce({ intro = [] }: Question, prompter: Prompter): void {
    const [key] = intro;
    if (key === undefined || key === this.#last) return;
    this.#last = key;
    const legend = intro.length > 1;
    if (legend && this.#legends.has(key)) return;
    if (legend) this.#legends.add(key);
    prompter.tell(intro);
  }
}

/**
 * What is wrong with an answer, by the question itself and then by the case file's own checks. An answer that only
 * disagrees with another one is taken: which of the two is wrong, the person says afterwards.
 */
export const faultOf = (
  question: Question,
  raw: string,
  session: InterviewSession,
  interview: readonly Section[],
): Flaw | undefined => {
  const taken = question.take(raw);
  if ('flaw' in taken) return taken.flaw;
  if ('again' in taken) return undefined;
  const alone = faultAlone(question, taken.answers, session.vocabulary);
  if (alone !== undefined) return alone;
  const after = { ...session, answers: taken.answers };
  const questions = questionsOf(interview, after);
  const split = disagreementOf(questions, after);
  if (split === undefined) return undefined;
  // What is wrong further down a map is put right there: its rows are gone through to the last.
  if (wholeOf(question, questions).at(-1)?.id !== question.id) return undefined;
  return split.parties.some(({ id }) => id !== question.id) ? undefined : split.problem;
};

/** An interview in which what is asked next is what bears most on the answer. */
export interface Course {
  /** How many of its sections are asked in full before that: safety, and what nothing can be reckoned without. */
  readonly opening: number;
  /** Of what can still be asked, what bears on the answer, the most telling first. */
  bearing(session: InterviewSession, askable: ReadonlySet<string>): readonly string[];
}

/**
 * The next question of an interview that follows what matters: the opening in its order, then the rest of the stretch
 * that was begun (`stretch`), then whatever bears most on the answer. Undefined where nothing does.
 */
export function nextThatMatters(
  interview: readonly Section[],
  session: InterviewSession,
  course: Course,
  stretch: string | undefined,
): Question | undefined {
  const opening = new Set(questionsOf(interview.slice(0, course.opening), session).map(({ id }) => id));
  const open = openQuestions(interview, session);
  const first =
    open.find(({ id }) => opening.has(id)) ??
    open.find((question) => stretch !== undefined && question.stretch === stretch);
  if (first !== undefined || open.length === 0) return first;
  const askable = new Set(open.flatMap(({ bearsOn = [] }) => bearsOn));
  for (const name of course.bearing(session, askable)) {
    const question = open.find(({ bearsOn }) => bearsOn?.includes(name));
    if (question !== undefined) return question;
  }
  return undefined;
}

export const openQuestions = (
  interview: readonly Section[],
  session: InterviewSession,
): readonly Question[] => questionsOf(interview, session).filter(({ answered }) => !answered);
