import type { LayoutSpec } from '../casebook/model.ts';
import { LAYOUT_RULES, mapRows, rowName, writeUnits } from '../casebook/positions.ts';
import type { UnitState } from '../casebook/scales.ts';
import { textAt, UNKNOWN, withAnswer } from './answers.ts';
import { plainQuestion } from './plain-question.ts';
import type { Hearing, Question, Taken } from './question.ts';
import { withSquares } from './squares.ts';
import { saysNothing } from './typed.ts';

/** Squares and their marks, `B3 x, C4 h` or `B3x C4h`; whatever is left over is a slip. */
const namedIn = (raw: string): { settings: string[]; rest: string } => {
  const settings: string[] = [];
  const rest = raw.replace(
    /([a-z]{1,3}\d{1,4})\s*[=:]?\s*([^\s,;\d])(?=[\s,;]|$)/gi,
    (_, square: string, mark: string) => {
      settings.push(`${square}=${mark}`);
      return '';
    },
  );
  return { settings, rest: rest.replace(/[\s,;]+/g, ' ').trim() };
};

/** The map told by what is not sound: one line for a quilt of hundreds of units of which a dozen are bad. */
export const squaresQuestion = (
  { answers }: Hearing,
  layout: LayoutSpec,
  shown: Pick<Question, 'look'> & { readonly intro: readonly string[] },
): Question => {
  const path = ['survey', 'units'] as const;
  const sound = LAYOUT_RULES[layout.kind].rows(layout).map((width) => Array<UnitState>(width).fill('sound'));
  const question = plainQuestion(answers, {
    path,
    ask: 'Which are not sound? All others are written down as sound.',
    label: 'units that are not sound',
    example: 'B3 x, C4 h, or none',
    ...shown,
  });
  const now = namedOn(textAt(answers, path));
  const { now: _, ...bare } = question;
  return {
    ...bare,
    ...(now === undefined ? {} : { now }),
    take: (raw): Taken => {
      if (saysNothing(raw)) return { answers: withAnswer(answers, path, UNKNOWN) };
      const none = /^none$/i.test(raw.trim());
      const { settings, rest } = none ? { settings: [], rest: '' } : namedIn(raw);
      if (rest !== '') {
        const what = `"${rest}" does not name a square and its mark`;
        return { flaw: { code: 'map-letter', what, cure: 'Write it like B3 x, C4 h.' } };
      }
      const result = withSquares(settings, sound);
      if ('problems' in result) return { flaw: result.problems[0] ?? NO_SQUARE };
      return { answers: withAnswer(answers, path, writeUnits(result.units)) };
    },
  };
};

const NO_SQUARE = { code: 'no-such-position', what: 'there is no such square' } as const;

/** What is not sound on a map, square by square. */
const namedOn = (text: string | undefined): string | undefined => {
  if (text === undefined) return undefined;
  const named = mapRows(text).flatMap((row, at) =>
    row.flatMap((mark, column) => (mark === '.' ? [] : [`${rowName(at)}${column + 1} ${mark}`])),
  );
  return named.length === 0 ? 'none' : named.join(', ');
};
