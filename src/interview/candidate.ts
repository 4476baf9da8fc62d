import { stringify } from 'yaml';
import type { QuiltCase } from '../casebook/model.ts';
import { LAYOUT_RULES, mapRows } from '../casebook/positions.ts';
import { readCase } from '../casebook/read-case.ts';
import { findingReader } from '../findings/read-answer.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import type { Problem } from '../problems/problem.ts';
import { type Answers, ASIDE, answerAt, isGroup, leavesOf, UNKNOWN, withAnswer } from './answers.ts';
import { layoutOf } from './layout-section.ts';
import { badReference, REFERENCES } from './plain-question.ts';

/** Answers without what belongs to the interview alone, and without what was said to be not known. */
export const caseAnswers = (answers: Answers): Answers => {
  let rest = withAnswer(answers, [ASIDE], undefined);
  for (const { path, value } of leavesOf(rest))
    if (value === UNKNOWN) rest = withAnswer(rest, path, undefined);
  const { history } = rest;
  if (!Array.isArray(history)) return rest;
  const told = history.filter(isGroup).map((spell) => caseSpell(spell));
  return withAnswer(rest, ['history'], told.length === 0 ? undefined : told);
};

const caseSpell = (spell: Answers): Answers =>
  Object.fromEntries(Object.entries(spell).filter(([, value]) => value !== UNKNOWN));

/** Nothing decides by these: they stand only where an answer is still to come, so that the rest can be read. */
const STAND_INS = { width: '400 in', height: '400 in', seen: 'photos' } as const;

/** A reader for one vocabulary is built once: the case's checks hang on it. */
const readers = new WeakMap<Vocabulary, ReturnType<typeof findingReader>>();
const readerOf = (vocabulary: Vocabulary): ReturnType<typeof findingReader> => {
  const known = readers.get(vocabulary) ?? findingReader(vocabulary);
  readers.set(vocabulary, known);
  return known;
};

export interface Candidate {
  /** The case as it would be now, with what is missing filled in; undefined where something is wrong. */
  readonly case: QuiltCase | undefined;
  readonly errors: readonly Problem[];
}

/**
 * Reads unfinished answers by the case file's own readers and checks: what is still to come is filled in so that it
 * cannot be at fault, and everything said is then refused or taken exactly as it would be in a file. Pure.
 */
export const candidateOf = (answers: Answers, vocabulary: Vocabulary): Candidate => {
  const said = caseAnswers(answers);
  let whole: Answers = { mendwise: 1, case: 'unnamed', ...said };
  for (const side of ['width', 'height'] as const)
    if (answerAt(whole, ['quilt', 'size', side]) === undefined)
      whole = withAnswer(whole, ['quilt', 'size', side], STAND_INS[side]);
  if (answerAt(whole, ['survey', 'seen']) === undefined)
    whole = withAnswer(whole, ['survey', 'seen'], STAND_INS.seen);
  whole = withoutBeginnings(withFilledMaps(whole, vocabulary));
  const reading = readCase('answers', stringify(whole), readerOf(vocabulary));
  const errors = reading.problems.filter(({ severity }) => severity === 'error');
  return { case: reading.case, errors: [...references(said), ...errors] };
};

const references = (answers: Answers): Problem[] =>
  REFERENCES.flatMap((path) => {
    const value = answerAt(answers, path);
    const flaw = value === undefined ? undefined : badReference(value, path.join('.'));
    return flaw === undefined ? [] : [{ severity: 'error', ...flaw }];
  });

/** Rows still to come are not seen, or of the first fabric. */
const withFilledMaps = (answers: Answers, vocabulary: Vocabulary): Answers => {
  const layout = layoutOf({ answers, vocabulary });
  if (layout === undefined) return answers;
  const families = answerAt(answers, ['survey', 'families']);
  const [letter = 'A'] = isGroup(families) ? Object.keys(families) : [];
  let filled = answers;
  for (const [name, mark] of [['units', '?'] as const, ['family_map', letter] as const]) {
    const text = answerAt(answers, ['survey', name]);
    if (typeof text !== 'string') continue;
    const widths = LAYOUT_RULES[layout.kind].rows(layout).slice(mapRows(text).length);
    const rest = widths.map((width) => `${mark.repeat(width)}\n`).join('');
    filled = withAnswer(filled, ['survey', name], `${text.trimEnd()}\n${rest}`);
  }
  return filled;
};

/** A layout of which only the kind is said, a count without its total, a stretch of use without its years. */
const withoutBeginnings = (answers: Answers): Answers => {
  let rest = answers;
  const layout = answerAt(rest, ['quilt', 'layout']);
  if (isGroup(layout) && (layout.rows === undefined || layout.columns === undefined))
    rest = withAnswer(rest, ['quilt', 'layout'], undefined);
  const counts = answerAt(rest, ['survey', 'counts']);
  if (isGroup(counts) && counts.of === undefined) rest = withAnswer(rest, ['survey', 'counts'], undefined);
  const { history } = rest;
  if (!Array.isArray(history)) return rest;
  const told = history.filter((spell) => isGroup(spell) && spell.years !== undefined);
  return withAnswer(rest, ['history'], told.length === 0 ? undefined : told);
};
