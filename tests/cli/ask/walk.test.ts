import { describe, expect, test } from 'vitest';
import { readCase } from '../../../src/casebook/read-case.ts';
import { findingReader } from '../../../src/findings/read-answer.ts';
import { type Answers, mergedAnswers } from '../../../src/interview/answers.ts';
import { newCaseText } from '../../../src/interview/draft.ts';
import { ENQUIRY } from '../../../src/interview/enquiry.ts';
import type { Flaw, Question, Section } from '../../../src/interview/question.ts';
import { type Prompter, type Reply, runQuestionLoop } from '../../../src/interview/question-loop.ts';
import { SURVEY } from '../../../src/interview/survey.ts';
import { type Seeded, seeded } from '../../../src/statistics/seeded.ts';
import { vocabulary } from '../../findings/vocabulary-fixture.ts';
import { FULL } from '../../tiers.ts';

const WALKS = FULL ? 200 : 12;
/** Prompts answered at random, and how many a patient person may need after that. */
const WILD = 160;
const PATIENT = 400;

const TYPED = [
  '', 'unknown', 'no idea', 'none', '0', '1', '2', '3', '4', '17', '12 in', '30', '9 x 9', '2 in x 3 in', '5 %', 'half',
  'indigo, shirting', 'indigo, silk, brown', 'silk', '. . .', '. w .', 'all x', 'all .', 'all q', 'AAA', 'ABA', 'all B', 'all C',
  'redo A', 'redo Z', 'lost 3, hole 2', 'lost 999', 'C-014', 'Ada Example', 'xyzzy', '3 lb', '1,100', '1935',
]; // biome-ignore format: a list of words

const COMMANDS = [
  'back',
  'list',
  'change 1',
  'change 7',
  'change layout',
  'change fabrics',
  'change no such thing',
];

const pick = <T>(list: readonly T[], random: Seeded): T =>
  list[Math.floor(random.uniform() * list.length)] as T;

class Interrupted extends Error {}

/** Somebody who answers anything, corrects at will and walks away; in the end a patient person sees it through. */
class Walker implements Prompter {
  readonly random: Seeded;
  asked = 0;

  constructor(seed: number) {
    this.random = seeded(`walk ${seed}`);
  }

  tell(): void {}

  async ask(question: Question, fault: (raw: string) => Flaw | undefined): Promise<Reply> {
    this.asked += 1;
    if (this.asked > WILD + PATIENT) throw new Error(`no end in sight at ${question.id}: ${question.ask}`);
    if (this.asked > WILD) return { kind: 'answer', raw: this.#patient(question, fault) };
    const chance = this.random.uniform();
    if (chance < 0.02) throw new Interrupted();
    if (chance < 0.12) return command(pick(COMMANDS, this.random));
    for (let tries = 0; tries < 12; tries += 1) {
      const raw = this.#wild(question);
      if (fault(raw) === undefined) return { kind: 'answer', raw };
    }
    return { kind: 'answer', raw: this.#patient(question, fault) };
  }

  #wild({ choices }: Question): string {
    if (choices.length === 0 || this.random.uniform() < 0.1) return pick(TYPED, this.random);
    return this.random.uniform() < 0.2 ? '' : pick(choices, this.random).value;
  }

  /** Where something must be corrected, "not known" is the answer that disagrees with nothing. */
  #patient({ id, ask, choices }: Question, fault: (raw: string) => Flaw | undefined): string {
    const letters = ['all A', 'all B', 'all C', 'all D', 'all E'];
    const some = [...choices].map(({ value }) => value).sort(() => this.random.uniform() - 0.5);
    const sure = ['unknown', '', ...some, ...letters, '60 in', '3', 'indigo'];
    const raw = (ask.includes('(now:') ? sure : ['', ...sure]).find((each) => fault(each) === undefined);
    if (raw === undefined) throw new Error(`nothing does for ${id}: ${ask}: ${fault('unknown')?.what}`);
    return raw;
  }
}

const command = (typed: string): Reply =>
  typed === 'back' || typed === 'list'
    ? { kind: typed }
    : { kind: 'change', wanted: typed.slice('change '.length) };

/** Walks an interview to its end, beginning again from what was kept wherever it was broken off. */
const walk = async (
  interview: readonly Section[],
  seed: number,
): Promise<{ said: Answers; sittings: number }> => {
  const walker = new Walker(seed);
  let kept: Answers = {};
  for (let sittings = 1; ; sittings += 1) {
    try {
      const said = await runQuestionLoop({
        interview,
        vocabulary,
        known: {},
        said: kept,
        prompter: walker,
        today: '2026-11-25',
        confirmed: async (now) => {
          kept = structuredClone(now) as Answers;
        },
        enough: async () => false,
      });
      return { said, sittings };
    } catch (error) {
      if (!(error instanceof Interrupted)) throw error;
    }
  }
};

const reader = findingReader(vocabulary);

describe('an interview has no dead ends', () => {
  test.each([
    ['an enquiry', ENQUIRY],
    ['a survey', SURVEY],
  ] as const)(
    '%s: answers, corrections and interruptions at random always come to a case that can be read',
    async (_, interview) => {
      let sittings = 0;
      for (let seed = 0; seed < WALKS / 2; seed += 1) {
        const done = await walk(interview, seed);
        sittings += done.sittings;
        const text = newCaseText(
          'walked',
          '2026-11-25',
          mergedAnswers({ survey: { seen: 'photos' } }, done.said),
        );
        const reading = readCase('walked.yaml', text, reader);
        const errors = reading.problems.filter(({ severity }) => severity === 'error');
        expect(errors, `seed ${seed}\n${text}`).toEqual([]);
      }
      // Walks that were never broken off would show nothing of resuming.
      expect(sittings).toBeGreaterThan(WALKS / 2);
    },
    FULL ? 3_600_000 : 120_000,
  );
});
