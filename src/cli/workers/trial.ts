import { type AlignedRulebooks, alignRulebooks } from '../../analysis/align-rulebooks.ts';
import { type CaseChange, compareOn, type TriedCase } from '../../analysis/compare.ts';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import { type CasePlace, readPlace } from '../../store/case-files.ts';
import {
  loadKnowledge,
  openStudio,
  relativeName,
  type Studio,
  type StudioOptions,
} from '../../store/studio.ts';

/** What every worker needs to know to try the same books on the same day. */
export interface TrialData {
  readonly studio: StudioOptions;
  /** The folder of the rules to try, as an absolute path. */
  readonly candidate: string;
  readonly asOf: string;
}

/** Some of the cases, tried in one go. */
export type Batch = readonly CasePlace[];

/** Two books laid side by side, ready to be tried on one batch of cases after another. */
export class Trial {
  readonly studio: Studio;
  readonly books: AlignedRulebooks;
  readonly #asOf: string;

  constructor(studio: Studio, books: AlignedRulebooks, asOf: string) {
    this.studio = studio;
    this.books = books;
    this.#asOf = asOf;
  }

  static async open({ studio: options, candidate, asOf }: TrialData): Promise<Trial> {
    const studio = await openStudio(options);
    return new Trial(studio, alignRulebooks(studio.knowledge, await loadKnowledge(candidate), asOf), asOf);
  }

  /** What comes out otherwise, in the order of the batch. */
  async run(batch: Batch): Promise<readonly CaseChange[]> {
    const changes: CaseChange[] = [];
    for (const place of batch) {
      const tried = await this.#filed(place);
      try {
        const change = compareOn(tried, this.books, this.#asOf);
        if (change !== undefined) changes.push(change);
      } catch (error) {
        if (error instanceof Error) error.message = `${tried.file}: ${error.message}`;
        throw error;
      }
    }
    return changes;
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
