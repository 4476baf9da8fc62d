import { stringify } from 'yaml';
import type { QuiltCase } from '../casebook/model.ts';
import { LAYOUT_RULES, mapRows } from '../casebook/positions.ts';
import { readCase } from '../casebook/read-case.ts';
import { findingReader } from '../findings/read-answer.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import type { Problem } from '../problems/problem.ts';
import { memoizeByKey, memoizeByObject } from '../quantities/memo.ts';
import { type Answers, ASIDE, answerAt, isGroup, leavesOf, UNKNOWN, withAnswer } from './answers.ts';
import { layoutOf } from './layout-section.ts';
import { badReference, REFERENCES } from './plain-question.ts';
import type { InterviewSession } from './question.ts';

/** Answers without what belongs to the interview alone, and without what was said to be not known. */
export const caseAnswers = (answers: Answers): Answers => {
  let rest = withAnswer(answers, [ASIDE], undefined);
  for (const { path, value } of leavesOf(rest))
    if (value === UNKNOWN) rest = withAnswer(rest, path, undefined);
  return withoutBeginnings(rest);
};

const caseSpell = (spell: Answers): Answers =>
  Object.fromEntries(Object.entries(spell).filter(([, value]) => value !== UNKNOWN));

/** Nothing decides by these: they stand only where an answer is still to come, so that the rest can be read. */
const STAND_INS = { width: '400 in', height: '400 in', seen: 'photos' } as const;

/** Nothing is held against a map before its last row: what it lacks may be about to be said. */
const withoutHalfMaps = (answers: Answers): Answers =>
  MAPS.reduce(
    (rest, name) =>
      widthsToCome(rest, name).length > 0 ? withAnswer(rest, ['survey', name], undefined) : rest,
    answers,
  );

export interface ValidatedAnswers {
  /** The case as it would be now, with what is missing filled in; undefined where something is wrong. */
  readonly case: QuiltCase | undefined;
  readonly errors: readonly Problem[];
}

/** Each answer is looked at several times on its way in: the last few readings are kept. */
const readings = memoizeByObject((_: Vocabulary) => new Map<string, ValidatedAnswers>());
const MOST_READINGS = 64;

/**
 * Reads unfinished answers by the case file's own readers and checks: what is still to come is filled in so that it
 * cannot be at fault, and everything said is then refused or taken exactly as it would be in a file. Pure.
 */
export const validateAnswers = (answers: Answers, vocabulary: Vocabulary): ValidatedAnswers => {
  const said = caseAnswers(withoutHalfMaps(answers));
  return memoizeByKey(
    readings(vocabulary),
    JSON.stringify(said),
    () => readCandidate(said, vocabulary),
    MOST_READINGS,
  );
};

const readCandidate = (said: Answers, vocabulary: Vocabulary): ValidatedAnswers => {
  let whole: Answers = { mendwise: 1, case: 'unnamed', ...said };
  for (const side of ['width', 'height'] as const)
    if (answerAt(whole, ['quilt', 'size', side]) === undefined)
      whole = withAnswer(whole, ['quilt', 'size', side], STAND_INS[side]);
  if (answerAt(whole, ['survey', 'seen']) === undefined)
    whole = withAnswer(whole, ['survey', 'seen'], STAND_INS.seen);
  const reading = readCase('answers', stringify(whole, { lineWidth: 0 }), findingReader(vocabulary));
  const errors = reading.problems.filter(({ severity }) => severity === 'error');
  return { case: reading.case, errors: [...references(said), ...errors] };
};

const references = (answers: Answers): Problem[] =>
  REFERENCES.flatMap((path) => {
    const value = answerAt(answers, path);
    const flaw = value === undefined ? undefined : badReference(value, path.join('.'));
    return flaw === undefined ? [] : [{ severity: 'error', ...flaw }];
  });

const MAPS = ['units', 'family_map'] as const;

/** Rows a map still lacks; none where there is no layout to say how many there are. */
const widthsToCome = (answers: Answers, name: (typeof MAPS)[number]): readonly number[] => {
  const layout = layoutOf({ answers });
  const text = answerAt(answers, ['survey', name]);
  if (layout === undefined || typeof text !== 'string') return [];
  return LAYOUT_RULES[layout.kind].rows(layout).slice(mapRows(text).length);
};

const withRows = (answers: Answers, name: (typeof MAPS)[number], mark: string): Answers => {
  const text = answerAt(answers, ['survey', name]);
  const widths = widthsToCome(answers, name);
  if (typeof text !== 'string' || widths.length === 0) return answers;
  const rest = widths.map((width) => `${Array.from({ length: width }, () => mark).join(' ')}\n`).join('');
  return withAnswer(answers, ['survey', name], `${text.trimEnd()}\n${rest}`);
};

/**
 * What was only begun is not part of a case yet: a layout of which only the kind is said, a count without its total, a
 * stretch of use without its years, half a map of fabrics. Rows of units that nobody has come to are not seen.
 */
const withoutBeginnings = (answers: Answers): Answers => {
  let rest = answers;
  const layout = answerAt(rest, ['quilt', 'layout']);
  if (isGroup(layout) && layoutOf({ answers: rest }) === undefined)
    rest = withAnswer(rest, ['quilt', 'layout'], undefined);
  const counts = answerAt(rest, ['survey', 'counts']);
  if (isGroup(counts) && counts.of === undefined) rest = withAnswer(rest, ['survey', 'counts'], undefined);
  rest = withRows(rest, 'units', '?');
  if (widthsToCome(rest, 'family_map').length > 0)
    rest = withAnswer(rest, ['survey', 'family_map'], undefined);
  const { history } = rest;
  if (!Array.isArray(history)) return rest;
  const told = history
    .filter(isGroup)
    .map(caseSpell)
    .filter(({ use, years }) => use !== undefined && years !== undefined);
  return withAnswer(rest, ['history'], told.length === 0 ? undefined : told);
};

/** What is wrong with one row of a map by itself: too many or too few marks, marks it does not have. */
export const rowFault = (
  { answers, vocabulary }: InterviewSession,
  name: (typeof MAPS)[number],
  index: number,
  marks: readonly string[],
): Problem | undefined => {
  const layout = layoutOf({ answers });
  if (layout === undefined) return undefined;
  const families = answerAt(answers, ['survey', 'families']);
  const letters = isGroup(families) ? Object.keys(families) : [];
  const filler = name === 'units' ? '?' : (letters[0] ?? 'A');
  const rows = LAYOUT_RULES[layout.kind]
    .rows(layout)
    .map((width, at) => (at === index ? marks : Array.from({ length: width }, () => filler)));
  const alone: Answers = {
    quilt: { layout: { ...layout } },
    survey: {
      families: Object.fromEntries(letters.map((letter) => [letter, {}])),
      [name]: rows.map((row) => `${row.join(' ')}\n`).join(''),
    },
  };
  return validateAnswers(alone, vocabulary).errors[0];
};
