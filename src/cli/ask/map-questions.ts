import { mapRows } from '../../casebook/map.ts';
import type { LayoutSpec } from '../../casebook/model.ts';
import { LAYOUT_RULES, rowName } from '../../casebook/positions.ts';
import { textAt, withAnswer } from './answers.ts';
import type { Hearing, Question } from './question.ts';

interface MapWanted {
  readonly name: 'units' | 'family_map';
  readonly layout: LayoutSpec;
  readonly legend: readonly string[];
  /** The mark for a whole row that nobody has looked at. */
  readonly blank: string | undefined;
  readonly label: string;
}

const written = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.join(' ')}\n`).join('');

/** Marks of one row: with or without blanks between them; `all w` is a whole row of one mark. */
const marksOf = (raw: string, width: number): string[] => {
  const [, mark] = /^\s*all\s+(\S)\s*$/i.exec(raw) ?? [];
  return mark === undefined ? [...raw.replace(/\s+/g, '')] : Array.from({ length: width }, () => mark);
};

/** A map taken row by row, each row a question of its own. What is wrong with a row is said by the case file's own checks. */
export const mapQuestions = (hearing: Hearing, wanted: MapWanted): Question[] => {
  const { name, layout, legend, blank, label } = wanted;
  const path = ['survey', name] as const;
  const { answers } = hearing;
  const rows = mapRows(textAt(answers, path) ?? '');
  return LAYOUT_RULES[layout.kind].rows(layout).map((width, index): Question => {
    const id = `survey.${name}.${rowName(index)}`;
    return {
      id,
      ask: `Row ${rowName(index)}, ${width} ${width === 1 ? 'mark' : 'marks'}:`,
      label: `${label}, row ${rowName(index)}`,
      choices: [],
      look: legend,
      intro: legend,
      required: blank === undefined,
      answered: rows[index] !== undefined,
      take: (raw) => {
        const [, row] = /^\s*redo\s+([a-z]{1,3})\s*$/i.exec(raw) ?? [];
        if (row !== undefined) return redo(row, name, rows.length);
        const empty = raw.trim() === '' || raw.trim() === 'unknown';
        if (empty && blank === undefined) {
          const what = `row ${rowName(index)} is needed, or the rows after it would all move up`;
          return { flaw: { code: 'map-shape', what, cure: 'Type back to tell it by shares instead.' } };
        }
        const marks = empty ? Array.from({ length: width }, () => blank ?? '?') : marksOf(raw, width);
        const next = rows.map((marked, at) => (at === index ? marks : marked));
        if (index >= rows.length) next.push(marks);
        return { answers: withAnswer(answers, path, written(next)) };
      },
    };
  });
};

const redo = (
  row: string,
  name: string,
  done: number,
): { again: string } | { flaw: { code: 'no-such-position'; what: string; cure: string } } => {
  const names = Array.from({ length: done }, (_, index) => rowName(index));
  const wanted = row.toUpperCase();
  if (names.includes(wanted)) return { again: `survey.${name}.${wanted}` };
  const what = `row ${wanted} has not been given yet`;
  const last = names.at(-1);
  const cure = last === undefined ? 'Give the first row.' : `Rows A to ${last} can be done again.`;
  return { flaw: { code: 'no-such-position', what, cure } };
};
