// What users run, in a process that is already warm, as a list of cases or an interview is: the quick answer from the
// case file on, over the worked cases and on a quilt of 400 units; the questions put to an answer; what to ask next.
// Medians. With --json the last line holds them for scripts.
import { readdirSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { contextOf } from '../../src/decision/context.ts';
import { decideQuick } from '../../src/decision/decide.ts';
import { question } from '../../src/decision/questions/ask.ts';
import { Bearings } from '../../src/decision/questions/next-question.ts';
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
const took = async (work: () => unknown): Promise<number> => {
  const start = performance.now();
  await work();
  return performance.now() - start;
};
const open = async (name: string) => (await openCase(`cases/${name}`, studio)).case;

/** Milliseconds a case, its rounds' median; the rounds below nought only warm the process. */
async function overCases(
  [first, end]: readonly [number, number],
  time: (name: string) => Promise<number>,
): Promise<number[]> {
  const all = new Map<string, number[]>(files.map((name) => [name, []]));
  for (let round = first; round < end; round += 1)
    for (const [name, times] of all) {
      const each = await time(name);
      if (round >= 0) times.push(each);
    }
  return [...all.values()].map(median);
}

const quick = await overCases([-2, ROUNDS], (name) =>
  took(async () => JSON.stringify(decideQuick(await open(name), context).answer)),
);
const large: number[] = [];
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
  return took(() => new Bearings(context).on(quilt, askable));
});

const say = (what: string, values: readonly number[]): void =>
  console.log(`${what}: median ${median(values).toFixed(1)} ms, most ${Math.max(...values).toFixed(1)}`);
console.log(`warm: ${files.length} cases, ${rulebook.rules.length} rules, Node ${process.version}`);
say('quick answer, from the case file on', quick);
say('quick answer, 400 units, once read', large);
say('all questions put to an answer', questions);
say('what an interview should ask next', bearings);
if (process.argv.includes('--json')) {
  const rounded = (values: readonly number[]): number => Math.round(median(values) * 10) / 10;
  console.log(
    JSON.stringify({
      node: process.version,
      cases: files.length,
      warm_quick_ms: rounded(quick),
      warm_quick_400_ms: rounded(large),
      questions_ms: rounded(questions),
      next_question_ms: rounded(bearings),
    }),
  );
}
