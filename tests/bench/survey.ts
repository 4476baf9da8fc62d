// A survey of 208 squares as a practised person types it: prompts, keystrokes, and how long each answer takes to bring the
// next prompt. The same script as the effort test's; what is asked next follows what matters, as in a terminal.
import { performance } from 'node:perf_hooks';
import { contextOf } from '../../src/decision/context.ts';
import { QuestionRanker } from '../../src/decision/questions/next-question.ts';
import type { Answers } from '../../src/interview/answers.ts';
import { runQuestionLoop } from '../../src/interview/question-loop.ts';
import { SURVEY, SURVEY_OPENING } from '../../src/interview/survey.ts';
import { validateAnswers } from '../../src/interview/validate-answers.ts';
import { openStudio } from '../../src/store/studio.ts';
import { BEFORE, typedFor } from '../cli/ask/scripted-survey.ts';

const studio = await openStudio({});
const { vocabulary } = studio.knowledge;
const bearings = new QuestionRanker(contextOf(studio, '2026-11-27'));

interface Wait {
  readonly id: string;
  readonly wall: number;
  readonly cpu: number;
}

const waits: Wait[] = [];
let [prompts, keys] = [0, 0];
let typed: { readonly id: string; readonly at: number; readonly cpu: NodeJS.CpuUsage } | undefined;

await runQuestionLoop({
  interview: SURVEY,
  vocabulary,
  known: BEFORE as Answers,
  said: {},
  course: {
    opening: SURVEY_OPENING,
    bearing: ({ answers }, askable) => {
      const { case: quiltCase } = validateAnswers(answers, vocabulary);
      return quiltCase === undefined ? [] : bearings.on(quiltCase, askable);
    },
  },
  // What is left then makes hours, price and years surer: this person goes on to the end.
  settled: async () => false,
  prompter: {
    tell: () => undefined,
    ask: async (question, fault) => {
      if (typed !== undefined) {
        const { user, system } = process.cpuUsage(typed.cpu);
        waits.push({ id: typed.id, wall: performance.now() - typed.at, cpu: (user + system) / 1000 });
      }
      const raw = typedFor(question.id);
      typed = { id: question.id, at: performance.now(), cpu: process.cpuUsage() };
      const wrong = fault(raw);
      if (wrong !== undefined) throw new Error(`${question.id}: ${wrong.what}`);
      prompts += 1;
      keys += raw.length + 1;
      return { kind: 'answer', raw };
    },
  },
  confirmed: async () => undefined,
  enough: async () => false,
});

const sorted = (of: (wait: Wait) => number): number[] => waits.map(of).sort((a, b) => a - b);
const middle = (values: readonly number[]): number => values[Math.floor(values.length / 2)] ?? 0;
const slowest = waits.reduce((most, wait) => (wait.cpu > most.cpu ? wait : most), {
  id: '',
  wall: 0,
  cpu: 0,
});
const over = waits.filter(({ cpu }) => cpu > 300).length;
console.log(
  `survey: 208 squares, three fabrics, 13 bad, 140 open seams: ${prompts} prompts, ${keys} keystrokes`,
);
console.log(
  `from an answer to the next prompt: median ${middle(sorted(({ wall }) => wall)).toFixed(0)} ms (processor ${middle(sorted(({ cpu }) => cpu)).toFixed(0)}), most ${slowest.wall.toFixed(0)} (${slowest.cpu.toFixed(0)}) after ${slowest.id}; ${over} of ${waits.length} over 300 ms of processor time`,
);
