import { type CaseChange, compareOn, type TriedCase } from '../../analysis/compare.ts';
import { generatedCase, nameOf } from '../../analysis/generated/generated-case.ts';
import { type Books, layBooks } from '../../analysis/tried/books.ts';
import { readCaseSource } from '../../casebook/read-case.ts';
import { findingReader } from '../../findings/validators.ts';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import { sourceOfData } from '../../source/source-of-data.ts';
import { type CasePlace, readPlace } from '../all-cases.ts';
import { loadKnowledge, openStudio, relativeName, type Studio, type StudioOptions } from '../studio.ts';

/** What every worker needs to know to try the same books on the same day. */
export interface TrialData {
  readonly studio: StudioOptions;
  /** The folder of the rules to try, as an absolute path. */
  readonly candidate: string;
  readonly asOf: string;
}

/** Some of the cases: files, or invented cases by their numbers, the last one not included. */
export type Batch =
  | { readonly places: readonly CasePlace[] }
  | { readonly seed: number; readonly from: number; readonly to: number };

/** What came of a batch. */
export interface Tried {
  readonly cases: number;
  /** Cases that neither book can read, so that nothing was tried on them. */
  readonly unread: number;
  /** Cases that come out otherwise, in the order of the batch. */
  readonly changes: readonly CaseChange[];
}

/** Two books laid side by side, ready to be tried on one batch of cases after another. */
export class Trial {
  readonly studio: Studio;
  readonly books: Books;
  readonly #asOf: string;

  constructor(studio: Studio, books: Books, asOf: string) {
    this.studio = studio;
    this.books = books;
    this.#asOf = asOf;
  }

  static async open({ studio: options, candidate, asOf }: TrialData): Promise<Trial> {
    const studio = await openStudio(options);
    return new Trial(studio, layBooks(studio.knowledge, await loadKnowledge(candidate), asOf), asOf);
  }

  async run(batch: Batch): Promise<Tried> {
    const changes: CaseChange[] = [];
    let [cases, unread] = [0, 0];
    const compare = (tried: TriedCase): void => {
      cases += 1;
      if ('error' in tried.current && 'error' in tried.candidate) unread += 1;
      try {
        const change = compareOn(tried, this.books, this.#asOf);
        if (change !== undefined) changes.push(change);
      } catch (error) {
        if (error instanceof Error) error.message = `${tried.file || tried.name}: ${error.message}`;
        throw error;
      }
    };
    if ('places' in batch) for (const place of batch.places) compare(await this.#filed(place));
    else
      for (let number = batch.from; number < batch.to; number += 1)
        compare(this.#generated(batch.seed, number));
    return { cases, unread, changes };
  }

  async #filed(place: CasePlace): Promise<TriedCase> {
    const current = await read(place, this.books.before.vocabulary);
    return {
      name: relativeName(place.path).replace(/^.*[/\\]|\.ya?ml$/gi, ''),
      file: relativeName(place.path),
      from: place.from,
      practice: place.practice,
      current,
      candidate: this.#sameWords ? current : await read(place, this.books.after.vocabulary),
    };
  }

  /** Drawn from the findings as they are: the candidate may then be unable to read what it no longer has. */
  #generated(seed: number, number: number): TriedCase {
    const name = nameOf(seed, number);
    const draft = generatedCase(this.books.before.vocabulary, seed, number);
    const by = (vocabulary: Vocabulary): TriedCase['current'] => {
      const { case: quiltCase, problems } = readCaseSource(
        sourceOfData(name, draft),
        findingReader(vocabulary),
      );
      return quiltCase ?? fault(problems);
    };
    const current = by(this.books.before.vocabulary);
    const candidate = this.#sameWords ? current : by(this.books.after.vocabulary);
    return { name, file: '', from: 'generated', practice: this.studio.practice, current, candidate };
  }

  get #sameWords(): boolean {
    return this.books.before.vocabulary === this.books.after.vocabulary;
  }
}

async function read(place: CasePlace, vocabulary: Vocabulary): Promise<TriedCase['current']> {
  const found = await readPlace(place, vocabulary);
  return 'quiltCase' in found ? found.quiltCase : fault(found.problems);
}

function fault(problems: readonly { readonly severity: string; readonly what: string }[]): {
  error: string;
} {
  const first = problems.find(({ severity }) => severity === 'error');
  return { error: first === undefined ? 'does not read' : `does not read: ${first.what}` };
}
