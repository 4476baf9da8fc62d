import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readCase } from '../../src/casebook/read-case.ts';
import { decide } from '../../src/decision/decide.ts';
import { readFigures } from '../../src/figures/read-figures.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import { readVocabulary } from '../../src/findings/read-vocabulary.ts';
import { printProblems } from '../../src/problems/print.ts';
import { type Problem, ProblemError } from '../../src/problems/problem.ts';
import { RULE_FILES } from '../../src/rulebook/knowledge.ts';
import { readRules } from '../../src/rulebook/read-rules.ts';
import { readYaml } from '../../src/source/read-yaml.ts';
import { openStudio } from '../../src/store/studio.ts';
import { mutate } from './mutants.ts';
import { seeded } from './seeded.ts';

// Run in a process of its own: FOLDER FROM TO. Spoils case and rule files, one for each number, and says of each how
// it ended. The seed is the number, so that any one of them can be made again.
const [, , root = '.', from = '0', to = '100'] = process.argv;
const studio = await openStudio({ rules: join(root, 'rules') });
const { knowledge, practice } = studio;
const finding = findingReader(knowledge.vocabulary);
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const cases = readdirSync(join(root, 'cases'))
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => ({ name: `cases/${name}`, text: read(`cases/${name}`) }));

type Outcome = 'answer' | 'problems';
type Subject = {
  readonly name: string;
  readonly text: string;
  try(mutant: string): Promise<Outcome> | Outcome;
};

const told = (problems: readonly Problem[]): Outcome => {
  printProblems(problems, { color: false, width: 80 });
  for (const { what } of problems) if (what.trim() === '') throw new Error('a problem says nothing');
  return problems.some(({ severity }) => severity === 'error') ? 'problems' : 'answer';
};
const yaml = (
  name: string,
  mutant: string,
  check: (source: Parameters<typeof readFigures>[0]) => Problem[],
): Outcome => {
  const reading = readYaml(name, mutant);
  return told('problems' in reading ? reading.problems : check(reading.source));
};

const subjects: Subject[] = [
  ...cases.map(({ name, text }) => ({
    name,
    text,
    try: async (mutant: string): Promise<Outcome> => {
      const reading = readCase(name, mutant, finding);
      if (reading.case === undefined) return told(reading.problems);
      const { answer } = await decide(reading.case, { knowledge, practice, day: '2026-11-27' });
      JSON.stringify(answer);
      return 'answer';
    },
  })),
  ...RULE_FILES.map(({ name, group }) => ({
    name: `rules/${name}`,
    text: read(`rules/${name}`),
    try: (mutant: string) =>
      yaml(name, mutant, (source) => [...readRules(source, group, knowledge.subjects).problems]),
  })),
  {
    name: 'rules/figures.yaml',
    text: read('rules/figures.yaml'),
    try: (mutant) => yaml('figures.yaml', mutant, (source) => readFigures(source).problems),
  },
  {
    name: 'rules/findings.yaml',
    text: read('rules/findings.yaml'),
    try: (mutant) => {
      readVocabulary('findings.yaml', mutant);
      return 'answer';
    },
  },
];

const tally = { answer: 0, problems: 0, slowest: 0, slowestIs: '', memory: 0, failed: [] as string[] };
for (let number = Number(from); number < Number(to); number += 1) {
  const random = seeded(number * 7919 + 1);
  random();
  const subject = subjects[Math.floor(random() * subjects.length)];
  const other = subjects[Math.floor(random() * subjects.length)];
  if (subject === undefined || other === undefined) continue;
  const mutant = mutate(subject.text, other.text, random);
  const start = performance.now();
  try {
    tally[await subject.try(mutant)] += 1;
  } catch (error) {
    if (error instanceof ProblemError) tally[told(error.problems)] += 1;
    else
      tally.failed.push(
        `${number} ${subject.name}: ${error instanceof Error ? error.stack?.slice(0, 400) : error}`,
      );
  }
  const took = performance.now() - start;
  if (took > tally.slowest) Object.assign(tally, { slowest: took, slowestIs: `${number} ${subject.name}` });
  tally.memory = Math.max(tally.memory, process.memoryUsage().rss);
}
console.log(JSON.stringify(tally));
