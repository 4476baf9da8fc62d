import { variablesOf } from '../../../src/decision/questions/ask.ts';
import { CASE_FILES, context, shippedCase } from '../shipped.ts';
import { LAWS } from './laws.ts';
import { violations } from './seen.ts';

/** One law over the shipped cases as they stand today and their variants. */
export interface Tally {
  readonly law: string;
  readonly tried: number;
  readonly found: readonly string[];
}

export const overShipped = (files: readonly string[] = CASE_FILES): readonly Tally[] =>
  Object.entries(LAWS).map(([number, law]) => {
    const all = files.map((file) => ({
      file,
      ...violations(law, variablesOf(shippedCase(file), context).alone, context),
    }));
    return {
      law: `${number} ${law.title}`,
      tried: all.reduce((sum, { tried }) => sum + tried, 0),
      found: all.flatMap(({ file, found }) => found.map((what) => `${file}: ${what}`)),
    };
  });
