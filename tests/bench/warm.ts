// What users run, in a process that is already warm, as a list of cases or an interview is: the quick answer from the
// case file on, over the worked cases and on a quilt of 400 units; the questions put to an answer; what to ask next.
// Medians. With --json the last line holds them for scripts.
import { readdirSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { contextOf } from '../../src/decision/context.ts';
import { decideQuick } from '../../src/decision/decide.ts';
import { question } from '../../src/decision/questions/ask.ts';
import { QuestionRanker } from '../../src/decision/questions/next-question.ts';
import { openCase } from '../../src/store/case-store.ts';
import { openStudio } from '../../src/store/studio.ts';
import { squares, told } from './squares.ts';

const ROUNDS = Number(process.env.BENCH_ROUNDS ?? 5);
const LARGE = 40;

const studio = await openStudio({ rules: 'rules' });
const { rulebook, vocabulary } = studio.knowledge;
const context = contextOf(studio, '2026-11-27');
const askable = new Set(vocabulary.findings.keys());
const files = readdirSync('cases').filter((name) => name.endsWith('.yaml'));

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
/** Milliseconds by the clock, and of processor time, which counts on a machine that others use too. */
interface Took {
  readonly wall: number;
  readonly cpu: number;
}
const took = async (work: () => unknown): Promise<Took> => {
  const [start, before] = [performance.now(), process.cpuUsage()];
  await work();
  const { user, system } = process.cpuUsage(before);
  return { wall: performance.now() - start, cpu: (user + system) / 1000 };
};
const middle = (times: readonly Took[]): Took => ({
  wall: median(times.map(({ wall }) => wall)),
  cpu: median(times.map(({ cpu }) => cpu)),
});
const open = async (name: string) => (await openCase(`cases/${name}`, studio)).case;

/** Milliseconds a case, its rounds' median; the rounds below nought only warm the process. */
async function overCases(
  [first, end]: readonly [number, number],
  time: (name: string) => Promise<Took>,
): Promise<Took[]> {
  const all = new Map<string, Took[]>(files.map((name) => [name, []]));
  for (let round = first; round < end; round += 1)
    for (const [name, times] of all) {
      const each = await time(name);
      if (round >= 0) times.push(each);
    }
  return [...all.values()].map(middle);
}

const quick = await overCases([-2, ROUNDS], (name) =>
  took(async () => JSON.stringify(decideQuick(await open(name), context).answer)),
);
const large: Took[] = [];
for (let run = 0; run < 2 * LARGE; run += 1) {
  const quilt = squares(run, told(run), studio);
  const each = await took(() => JSON.stringify(decideQuick(quilt, context).answer));
  if (run >= LARGE) large.push(each);
}
// Warm by now; and a question is a hundred decisions.
const questions = await overCases([0, 1], async (name) => {
  const decision = decideQuick(await open(name), context);
  return took(() => question(decision, context));
});
const bearings = await overCases([0, 1], async (name) => {
  const quilt = await open(name);
  return took(() => new QuestionRanker(context).on(quilt, askable));
});

const say = (what: string, times: readonly Took[]): void => {
  const { wall, cpu } = middle(times);
  const [most, mostCpu] = [
    Math.max(...times.map((each) => each.wall)),
    Math.max(...times.map((each) => each.cpu)),
  ];
  console.log(
    `${what}: median ${wall.toFixed(1)} ms (processor ${cpu.toFixed(1)}), most ${most.toFixed(1)} (${mostCpu.toFixed(1)})`,
  );
};
console.log(`warm: ${files.length} cases, ${rulebook.rules.length} rules, Node ${process.version}`);
say('quick answer, from the case file on', quick);
say('quick answer, 400 units, once read', large);
say('all questions put to an answer', questions);
say('what an interview should ask next', bearings);
if (process.argv.includes('--json')) {
  const rounded = (times: readonly Took[], of: keyof Took): number => Math.round(middle(times)[of] * 10) / 10;
  console.log(
    JSON.stringify({
      node: process.version,
      cases: files.length,
      warm_quick_ms: rounded(quick, 'wall'),
      warm_quick_400_ms: rounded(large, 'wall'),
      questions_ms: rounded(questions, 'wall'),
      next_question_ms: rounded(bearings, 'wall'),
      warm_quick_cpu_ms: rounded(quick, 'cpu'),
      warm_quick_400_cpu_ms: rounded(large, 'cpu'),
      questions_cpu_ms: rounded(questions, 'cpu'),
      next_question_cpu_ms: rounded(bearings, 'cpu'),
    }),
  );
}
