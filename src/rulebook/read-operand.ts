import type { Kind } from '../findings/vocabulary.ts';
import type { Problem } from '../problems/problem.ts';
import { readArea, readLength } from '../quantities/length.ts';
import { formatShare, readShare, readWeight } from '../quantities/measure.ts';
import { quoted, textOf } from '../source/quote.ts';
import { suggest } from '../source/suggest.ts';
import type { Subject } from './subjects.ts';

type Flaw = Pick<Problem, 'code' | 'what' | 'cure' | 'didYouMean'>;
export type OperandReading = { readonly value: number | string | boolean } | { readonly flaw: Flaw };

const number = (raw: unknown): number | undefined =>
  typeof raw === 'number' && Number.isFinite(raw) ? raw : undefined;

const YES_NO = new Map<unknown, boolean>([
  [true, true],
  [false, false],
  ['yes', true],
  ['no', false],
  ['Yes', true],
  ['No', false],
]);

/** How a value of each kind is written in a rule, and an example to show where it is not. */
const READERS: Record<
  Exclude<Kind, 'choice' | 'grade' | 'yes/no'>,
  { read(raw: unknown): number | undefined; like: string }
> = {
  fraction: {
    read: (raw) => (typeof raw === 'string' || typeof raw === 'number' ? readShare(raw) : undefined),
    like: '15 %',
  },
  length: { read: (raw) => (typeof raw === 'string' ? readLength(raw) : undefined), like: '4 1/2 in' },
  area: { read: (raw) => (typeof raw === 'string' ? readArea(raw) : undefined), like: '60 in2' },
  weight: { read: (raw) => (typeof raw === 'string' ? readWeight(raw) : undefined), like: '8 lb' },
  count: { read: number, like: '12' },
  number: { read: number, like: '0.3' },
  money: { read: number, like: '1200' },
  years: { read: number, like: '1900' },
};

/** Reads one value a test compares with: choices to their word or index, measures to the house's units. */
export function readOperand(subject: Subject, raw: unknown): OperandReading {
  if (subject.value === 'yes/no') {
    const value = YES_NO.get(raw);
    return value === undefined ? { flaw: wrongKind(subject, raw, 'yes or no', 'yes') } : { value };
  }
  if (subject.value === 'choice' || subject.value === 'grade') return readOption(subject, raw);
  const way = READERS[subject.value];
  const value = way.read(raw);
  if (value === undefined) return { flaw: wrongKind(subject, raw, `a ${subject.value}`, way.like) };
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = subject.range ?? {};
  const said = subject.value === 'fraction' ? formatShare : String;
  if (value < min || value > max) {
    return {
      flaw: {
        code: 'out-of-range',
        what: `${textOf(raw) || quoted(raw)} is outside what "${subject.id}" can be`,
        cure: `Use a value from ${said(min)} to ${said(max)}.`,
      },
    };
  }
  return { value };
}

function readOption(subject: Subject, raw: unknown): OperandReading {
  const words = subject.options.map((option) => option.value);
  const index = words.indexOf(textOf(raw));
  if (index >= 0) return { value: subject.ordered ? index : textOf(raw) };
  const near = suggest(textOf(raw), words);
  return {
    flaw: {
      code: 'not-an-option',
      what: `${quoted(raw)} is not one of the choices for ${subject.id}`,
      cure: `Use one of: ${words.join(', ')}.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  };
}

const wrongKind = (subject: Subject, raw: unknown, wanted: string, like: string): Flaw => ({
  code: 'wrong-kind',
  what: `"${subject.id}" is compared with ${wanted}, not with ${JSON.stringify(raw) ?? 'nothing'}`,
  cure: `Write it like ${like}.`,
});
