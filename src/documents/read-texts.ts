import { z } from 'zod';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { oneOf } from '../source/quote.ts';
import { readYaml } from '../source/read-yaml.ts';
import type { Path, Source } from '../source/source.ts';
import { suggest } from '../source/suggest.ts';
import { zodProblems } from '../source/zod-messages.ts';
import { placeholders, type TextCatalog, textsOf } from './document-context.ts';
import { clean } from './phrases.ts';
import { COMMON_SLOTS, RETIRED, SLOTS, type TextKey } from './slots.ts';

const one = z.string().trim().min(1, { error: 'a sentence' });
const text = z.union([one, z.array(one).min(1)]);

const GROUPS = Object.fromEntries(
  Object.entries(SLOTS).map(([group, names]) => [
    group,
    z.strictObject(Object.fromEntries(Object.keys(names).map((name) => [name, text]))),
  ]),
);
const SCHEMA = z.strictObject(GROUPS);
/** The same where shipped words stand in for what is not there, and what once was there does no harm. */
const IN_PART = z.strictObject(
  Object.fromEntries(
    Object.entries(GROUPS).map(([group, names]) => {
      const once = Object.fromEntries((RETIRED[group] ?? []).map((name) => [name, text]));
      return [group, names.extend(once).partial().exactOptional()];
    }),
  ),
);

interface TextsReading {
  /** Undefined where anything is wrong. */
  readonly texts?: TextCatalog;
  /** Errors, and warnings of words that press a client. */
  readonly problems: readonly Problem[];
  /** Texts that are not there, and for which others stand in. */
  readonly missing: readonly string[];
}

/**
 * Reads texts.yaml. Pure; everything wrong in it at once, each with its place. `standIn` has the words for texts that
 * are not there: a studio's own file may be older than a paper.
 */
export function readTexts(file: string, content: string, standIn?: TextCatalog): TextsReading {
  const missing: string[] = [];
  const read = readYaml(file, content);
  if ('problems' in read) return { problems: read.problems, missing };
  const { source } = read;
  const schema = standIn === undefined ? SCHEMA : IN_PART;
  const parsed = schema.safeParse(source.value);
  if (!parsed.success) return { problems: zodProblems(parsed.error, source, { schema }), missing };
  const given: Readonly<Record<string, Readonly<Record<string, string | string[] | undefined>> | undefined>> =
    parsed.data;
  const problems: Problem[] = [];
  const byKey = new Map<string, readonly string[]>();
  for (const [group, names] of Object.entries(SLOTS)) {
    for (const [name, slots] of Object.entries<readonly string[]>(names)) {
      const key = `${group}.${name}` as TextKey;
      const value = given[group]?.[name];
      if (value === undefined) {
        missing.push(key);
        byKey.set(key, standIn?.list(key, {}) ?? []);
        continue;
      }
      const items = Array.isArray(value) ? value : [value];
      items.forEach((item, index) => {
        const path: Path = Array.isArray(value) ? [group, name, index] : [group, name];
        problems.push(...flaws(item, path, [...slots, ...COMMON_SLOTS], source));
      });
      byKey.set(key, items.map(clean));
    }
  }
  if (problems.some(({ severity }) => severity === 'error')) return { problems, missing };
  return { texts: textsOf(byKey), problems, missing };
}

/** Throws ProblemError instead; words that press are left to whoever checks the rules. */
export function textsOrThrow(
  file: string,
  content: string,
  standIn?: TextCatalog,
): { readonly texts: TextCatalog; readonly missing: readonly string[] } {
  const { texts, problems, missing } = readTexts(file, content, standIn);
  if (texts === undefined) throw new ProblemError(problems);
  return { texts, missing };
}

function flaws(item: string, path: Path, allowed: readonly string[], source: Source): Problem[] {
  const broken = /[{}]/.test(item.replace(/\{[^{}]*\}/g, ''));
  return [
    ...placeholders(item)
      .filter(({ name }) => !allowed.includes(name))
      .map(({ name }): Problem => {
        const near = suggest(name, allowed);
        return {
          code: 'bad-placeholder',
          severity: 'error',
          what: `"{${name}}" names nothing that can stand in ${path.slice(0, 2).join('.')}`,
          why: 'It would reach the client as it stands, braces and all.',
          cure: `Use ${oneOf(allowed.map((each) => `{${each}}`))}, or write the words out.`,
          place: within(`{${name}}`, path, source),
          ...(near === undefined ? {} : { didYouMean: `{${near}}` }),
        };
      }),
    ...(broken
      ? [
          {
            code: 'bad-placeholder',
            severity: 'error',
            what: `a brace in ${path.slice(0, 2).join('.')} has no partner`,
            cure: 'Write both braces around a name, or none.',
            place: source.place(path),
          } satisfies Problem,
        ]
      : []),
    ...pressingWords(item).map(
      ({ word }): Problem => ({
        code: 'suspicious',
        severity: 'warning',
        what: `"${word}" promises, presses or plays down`,
        why: 'A client should be able to choose without being pushed, and a promise about old cloth cannot be kept.',
        cure: 'Say the same without it.',
        place: within(word, path, source),
      }),
    ),
  ];
}

/** The place of a piece of a text, where it stands on one line of the file as written; else of the whole text. */
function within(piece: string, path: Path, source: Source) {
  const place = source.place(path);
  const column = source.line(place.line).indexOf(piece, place.column - 1);
  return column < 0 ? place : source.onLine(place.line, column + 1, piece.length);
}

/** Words that promise, press or play down: a client should choose without them. */
export const PRESSING = [
  'guarantee',
  'guaranteed',
  'safe',
  'safely',
  'only',
  'just',
  'simply',
  'merely',
  'perfect',
  'perfectly',
  'obviously',
  'of course',
  'don’t worry',
  "don't worry",
  'trust us',
  'as good as new',
  'worthless',
  'must have',
  'bargain',
  'best',
] as const;

const PATTERN = new RegExp(`(?<![\\p{L}-])(${PRESSING.join('|')})(?![\\p{L}-])`, 'giu');

/** Words of that kind in a text, with where they begin. */
export const pressingWords = (text: string): { readonly word: string; readonly at: number }[] =>
  [...text.matchAll(PATTERN)].map((match) => ({ word: match[0], at: match.index }));
