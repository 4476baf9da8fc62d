import { readdirSync } from 'node:fs';
import readability from 'text-readability';
import { beforeAll, describe, expect, it } from 'vitest';
import type { QuiltCase } from '../../src/casebook/model.ts';
import type { Answer } from '../../src/decision/answer-model.ts';
import { contextOf } from '../../src/decision/context.ts';
import { decideQuick } from '../../src/decision/decide.ts';
import { question, variablesOf } from '../../src/decision/questions/ask.ts';
import { compareAnswers } from '../../src/decision/questions/compare.ts';
import { printAnswer } from '../../src/documents/terminal/answer.ts';
import { printComparison } from '../../src/documents/terminal/comparison.ts';
import type { MeasureSystem } from '../../src/quantities/measure.ts';
import { openCase } from '../../src/store/case-store.ts';
import { openStudio, type Studio } from '../../src/store/studio.ts';
import { sample } from '../tiers.ts';
import { thresholdCases } from '../tools/thresholds.ts';
import { sentencesIn, type Told, wordsIn } from './answer-sentences.ts';
import { slipsInSentence, slipsInWords } from './slips.ts';
import { unwantedIn } from './words.ts';

const DAY = '2026-11-27';

/** Flesch 1948: 60 and more is plain English, read with ease at 13 to 15 years. */
const PLAIN = 60;
/** Words in a sentence, figures in brackets included; common practice, no source. */
const LONGEST = 40;

/** Cases of a folder, without the other surveys that lie beside some (`name.helper-b.yaml`). */
const casesIn = (folder: string): string[] =>
  readdirSync(new URL(`../../${folder}`, import.meta.url))
    .filter((name) => /^[^.]+\.yaml$/.test(name) && name !== 'studio.yaml')
    .sort()
    .map((name) => `${folder}/${name}`);

const WORKED = casesIn('cases');
const FILES = ['cases', 'cases/demo', 'cases/studio-practice'].flatMap(casesIn);
/** What would change an answer takes longest to find out, so some worked cases are asked it. */
const ASKED = sample(
  WORKED.filter((_, index) => index % 2 === 0),
  4,
);
/** Every tenth case is answered in a studio that measures in centimetres. */
const isMetric = (file: string, index: number): boolean => WORKED.includes(file) || index % 10 === 0;

interface Answered {
  readonly file: string;
  readonly units: MeasureSystem;
  readonly answer: Answer;
  readonly quiltCase: QuiltCase;
}

const answered: Answered[] = [];

async function answerTo(
  { file, quiltCase }: Pick<Answered, 'file' | 'quiltCase'>,
  studio: Studio,
  units: MeasureSystem,
  asked: boolean,
): Promise<Answered> {
  const practice = { ...studio.practice, settings: { ...studio.practice.settings, units } };
  const context = contextOf({ ...studio, practice }, DAY);
  const decision = decideQuick(quiltCase, context);
  const questions = asked ? await question(decision, context) : {};
  return { file, units, answer: { ...decision.answer, ...questions }, quiltCase };
}

beforeAll(async () => {
  const studio = await openStudio({});
  const all = thresholdCases(studio.knowledge.vocabulary).map((quiltCase) => ({
    file: `tests/thresholds.yaml: ${quiltCase.case}`,
    quiltCase,
  }));
  for (const file of FILES.toReversed())
    all.unshift({ file, quiltCase: (await openCase(file, studio)).case });
  for (const each of all) answered.push(await answerTo(each, studio, 'inches', ASKED.includes(each.file)));
  for (const each of all.filter(({ file }, index) => isMetric(file, index)))
    answered.push(await answerTo(each, studio, 'metric', each.file === ASKED[1] || each.file === ASKED[4]));
}, 600_000);

/** Everything wrong with the texts that `read` finds in the answers: what, in which text, of which case. */
function wrongIn(
  read: (answer: Answer) => readonly Told[],
  slips: (text: string, units: MeasureSystem) => readonly string[],
): string[] {
  const wrong = new Map<string, string>();
  for (const { file, units, answer } of answered)
    for (const { at, text } of read(answer))
      for (const slip of slips(text, units)) wrong.set(`${slip} | ${at}: ${text}`, `${file} (${units})`);
  return [...wrong].map(([slip, file]) => `${file}: ${slip}`);
}

describe('the sentences of an answer, over all shipped cases', () => {
  it('come from every worked, demonstration and threshold case', () => {
    expect(answered.length).toBeGreaterThan(350);
  });

  it('hold no word that presses, promises or hedges', () => {
    expect(wrongIn(sentencesIn, unwantedIn)).toEqual([]);
    expect(wrongIn(wordsIn, unwantedIn)).toEqual([]);
  });

  it('are whole sentences in one system of measures, with nothing of the machine in them', () => {
    expect(wrongIn(sentencesIn, slipsInSentence)).toEqual([]);
  });

  it('are built from labels and values with nothing of the machine in them', () => {
    expect(wrongIn(wordsIn, slipsInWords)).toEqual([]);
  });

  it('read as plain English, case by case', () => {
    const hard = answered.flatMap(({ file, answer }) => {
      const text = sentencesIn(answer)
        .filter(({ at }) => at !== 'assumptions')
        .map((each) => each.text)
        .join(' ');
      const ease = readability.fleschReadingEase(text);
      return ease < PLAIN ? [`${file}: ${ease}`] : [];
    });
    expect(hard).toEqual([]);
  });

  it('have no sentence too long to be read in one breath', () => {
    const long = answered
      .flatMap(({ answer }) => sentencesIn(answer))
      .flatMap(({ text }) => text.split(/(?<=[.?!]) /))
      .filter((sentence) => sentence.split(' ').length > LONGEST);
    expect([...new Set(long)]).toEqual([]);
  });
});

/** Lines of a page as text; the line that names a rule and its evidence is a reference. */
const linesOf = (page: string): string[] =>
  page
    .split('\n')
    .filter((line) => !/^ {5}[a-z0-9-]+; /.test(line))
    .map((line) => line.trim().replace(/ {2,}/g, ': '));

const WIDE = { width: 10_000, color: false };

const wrongOn = (page: string, units: MeasureSystem): string[] =>
  linesOf(page).flatMap((line) =>
    [...slipsInWords(line, units), ...unwantedIn(line)].map((slip) => `${slip} | ${line}`),
  );

describe('an answer in the terminal', () => {
  it('has the same plain words on its page', () => {
    const wrong = answered.flatMap(({ file, units, answer, quiltCase }) =>
      wrongOn(printAnswer(answer, quiltCase, WIDE), units).map((slip) => `${file}: ${slip}`),
    );
    expect(wrong).toEqual([]);
  });

  it('has them where it is laid beside what it would be for another use', async () => {
    const { knowledge, practice } = await openStudio({});
    const wrong: string[] = [];
    for (const { file, units, answer, quiltCase } of answered) {
      if (!ASKED.includes(file)) continue;
      const settings = { ...practice.settings, units };
      const context = contextOf({ knowledge, practice: { ...practice, settings } }, DAY);
      const { alone, variables } = variablesOf(quiltCase, context);
      const use = variables.find(({ id }) => id === 'intended_use');
      for (const value of ['storage', 'regular_bed'] as const) {
        if (use === undefined || use.current === value) continue;
        const other = decideQuick(use.set(alone, value), context).answer;
        const from = use.current === undefined ? 'not known' : use.say(use.current);
        const change = { finding: use.id, label: use.label, from, to: use.say(value) };
        const page = printComparison(answer.case, compareAnswers(answer, other, [change]), WIDE);
        wrong.push(...wrongOn(page, units).map((slip) => `${file}: ${slip}`));
      }
    }
    expect(wrong).toEqual([]);
  });
});
