import { readFileSync } from 'node:fs';
import { parse, stringify } from 'yaml';
import type { Expectation, QuiltCase } from '../../src/casebook/model.ts';
import { readCase } from '../../src/casebook/read-case.ts';
import { findingReader } from '../../src/findings/read-answer.ts';
import type { Vocabulary } from '../../src/findings/vocabulary.ts';
import { printProblems } from '../../src/problems/print.ts';
import { type Draft, put } from './skeleton/draft.ts';

/** Values by the path they stand at in a case file: `survey.counts.lost: 20`. */
type Values = Readonly<Record<string, Draft[string]>>;

/** One case of the table: a base, what differs from it, and what the rules say to it. */
export interface Row {
  readonly case: string;
  readonly why: string;
  readonly from?: string;
  readonly with: Values;
  readonly expect: Expectation;
}

export interface Table {
  /** The text above the rows, which no tool rewrites. */
  readonly head: string;
  readonly rows: readonly Row[];
  readonly bases: Readonly<Record<string, Values>>;
}

export const TABLE = new URL('../thresholds.yaml', import.meta.url);
const ROWS = '\nrows:\n';

export function readTable(text = readFileSync(TABLE, 'utf8')): Table {
  const { bases, rows } = parse(text) as Pick<Table, 'bases' | 'rows'>;
  return { head: text.slice(0, text.indexOf(ROWS) + ROWS.length), bases, rows };
}

const inOneLine = (value: unknown): string =>
  stringify(value, { collectionStyle: 'flow', lineWidth: 0, singleQuote: true }).trim();

export const textOfTable = ({ head, rows }: Table): string =>
  head +
  rows
    .map((row) => {
      const [first, ...more] = Object.entries(row).map(([name, value]) => `${name}: ${inOneLine(value)}`);
      return [`- ${first}`, ...more.map((line) => `  ${line}`)].join('\n');
    })
    .join('\n')
    .concat('\n');

/** The case file a row stands for. */
export function draftOf(row: Row, bases: Table['bases']): Draft {
  const draft: Draft = { mendwise: 1, case: row.case };
  const base = row.from === undefined ? {} : bases[row.from];
  if (base === undefined) throw new Error(`${row.case}: there is no base "${row.from}"`);
  for (const [path, value] of Object.entries({ ...base, ...row.with })) put(draft, path.split('.'), value);
  return { ...draft, expect: row.expect as unknown as Draft };
}

/** Every row of the table as a case, read by the checks that read a file of it. */
export function thresholdCases(vocabulary: Vocabulary, table = readTable()): QuiltCase[] {
  const readers = findingReader(vocabulary);
  return table.rows.map((row) => {
    const { case: quiltCase, problems } = readCase(row.case, stringify(draftOf(row, table.bases)), readers);
    if (quiltCase === undefined) throw new Error(printProblems(problems));
    return quiltCase;
  });
}
