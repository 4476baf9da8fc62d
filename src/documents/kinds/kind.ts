import type { Sheet } from '../model.ts';
import type { Writing } from '../writing.ts';

/** One kind of document: each answers for when it can be written and for what it says. */
export interface Kind {
  readonly name: string;
  readonly summary: string;
  /** Whether it tells what would change the answer, so that this has to be worked out first. */
  readonly questions: boolean;
  /** Why it cannot be written for this answer; undefined where it can. */
  unfit(writing: Writing): string | undefined;
  write(writing: Writing): Sheet;
}
