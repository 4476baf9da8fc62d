import type { z } from 'zod';
import type { Problem } from '../problems/problem.ts';
import { groupName, KINDS, oneOf, pathName, quoted, valueAt, type ZodMessage } from './quote.ts';
import type { Path, Source } from './source.ts';
import { suggest } from './suggest.ts';

/** What zod found wrong, each with its place in the file, a cause, a cure and a near miss where there is one. */
export const zodProblems = (
  error: { readonly issues: readonly Issue[] },
  source: Source,
  options: ZodProblemsOptions = {},
): Problem[] =>
  error.issues
    .flatMap((issue) => draft(issue, options.base ?? [], source, options))
    .map(({ path = [], at, severity = 'error', what: said, ...rest }) => {
      const what =
        typeof said === 'string'
          ? said
          : said(pathName(path), quoted(valueAt(source.value, path)), groupName(path));
      const why = rest.why ?? options.why?.(path);
      return {
        severity,
        what,
        ...rest,
        ...(why === undefined ? {} : { why }),
        place: source.place(path, at),
      };
    });

type Def = z.core.$ZodTypes['_zod']['def'];

const defOf = (schema: z.core.$ZodType): Def => schema._zod.def as Def;

/** The checks that stand for one value, whatever wraps it: optional, transformed, one of several. */
const inside = (schema: z.core.$ZodType): z.core.$ZodType[] => {
  const def = defOf(schema);
  if ('innerType' in def) return inside(def.innerType);
  if (def.type === 'pipe') return [...inside(def.in), ...inside(def.out)];
  if (def.type === 'lazy') return inside(def.getter());
  if (def.type === 'union') return def.options.flatMap(inside);
  return [schema];
};

const step = (schema: z.core.$ZodType, segment: string | number): z.core.$ZodType[] => {
  const def = defOf(schema);
  if (def.type === 'object') {
    const next = Object.hasOwn(def.shape, segment) ? def.shape[String(segment)] : undefined;
    return next === undefined ? [] : inside(next);
  }
  if (def.type === 'record') return inside(def.valueType);
  if (def.type === 'array') return inside(def.element);
  return [];
};

/** The names a zod check knows for the group at a path, in the order they were declared. */
const knownKeysIn =
  (schema: z.core.$ZodType) =>
  (path: Path): readonly string[] => {
    const here = path.reduce(
      (nodes, segment) => nodes.flatMap((node) => step(node, segment)),
      inside(schema),
    );
    const keys = here.flatMap((node) => {
      const def = defOf(node);
      return def.type === 'object' ? Object.keys(def.shape) : [];
    });
    return [...new Set(keys)];
  };

type Issue = z.core.$ZodIssue;

interface ZodProblemsOptions {
  /** Where in the file the checked value stands; issues' paths are counted from there. */
  readonly base?: Path;
  /** The check itself: it knows the names of each group, for "did you mean". */
  readonly schema?: z.core.$ZodType;
  /** Why it matters, by path, where there is more to say than the code's own cause. */
  readonly why?: (path: Path) => string | undefined;
}

/** A problem before it has its place. */
type Draft = Omit<Problem, 'severity' | 'place' | 'what'> & {
  what: ZodMessage['what'];
  severity?: Problem['severity'];
  at?: 'key';
  path?: Path;
};

type Speaker<C extends Issue['code']> = (
  issue: Extract<Issue, { code: C }>,
  path: Path,
  source: Source,
  options: ZodProblemsOptions,
) => Draft[];

/** Of a whole list pasted into the wrong place, the first names tell enough. */
const MOST_TOLD = 20;

const wrongKind = (expected: string, path: Path, source: Source): Draft[] => {
  const value = valueAt(source.value, path);
  const name = pathName(path);
  const wanted = KINDS[expected] ?? expected;
  if (value === undefined) {
    return [{ code: 'missing-key', what: `${name} is missing`, cure: `Add ${name}: ${wanted}.` }];
  }
  const what = `${name} wants ${wanted}, not ${quoted(value)}`;
  return [{ code: 'wrong-kind', what, cure: `Write ${wanted} here.` }];
};

const range = (issue: { origin: string; inclusive?: boolean | undefined }, word: string, bound: unknown) => {
  const unit = issue.origin === 'array' ? ' entries' : issue.origin === 'string' ? ' characters' : '';
  const strict = issue.inclusive === false ? ` and not ${bound} itself` : '';
  return `${word} ${bound}${unit}${strict}`;
};

/** One speaker for each kind of issue zod can raise. */
const SPEAKERS: { readonly [C in Issue['code']]: Speaker<C> } = {
  invalid_type: (issue, path, source) => wrongKind(issue.expected, path, source),
  unrecognized_keys: (issue, path, _source, options) => {
    const own = path.slice(options.base?.length ?? 0);
    const known = options.schema === undefined ? [] : knownKeysIn(options.schema)(own);
    return issue.keys.slice(0, MOST_TOLD).map((key) => {
      const near = suggest(key, known);
      const inside = own.length === 0 ? 'here' : `under ${pathName(path)}`;
      const group = path.length === 0 ? 'at the top of the file' : inside;
      return {
        code: 'unknown-key',
        what: `${quoted(key)} is not known ${group}`,
        path: [...path, key],
        at: 'key',
        ...(known.length > 0 ? { cure: `Use one of ${known.join(', ')}, or remove the line.` } : {}),
        ...(near === undefined ? {} : { didYouMean: near }),
      };
    });
  },
  invalid_value: (issue, path, source) => {
    const value = valueAt(source.value, path);
    const options = issue.values.map(String);
    if (value === undefined) {
      const what = `${pathName(path)} is missing`;
      return [{ code: 'missing-key', what, cure: `Add ${pathName(path)}: ${oneOf(options)}.` }];
    }
    const near = typeof value === 'string' ? suggest(value, options) : undefined;
    return [
      {
        code: 'not-an-option',
        what: `${quoted(value)} is not one of the choices for ${pathName(path)}`,
        cure: `Use one of ${options.join(', ')}.`,
        ...(near === undefined ? {} : { didYouMean: near }),
      },
    ];
  },
  too_small: (issue, path, source) => [
    {
      code: 'out-of-range',
      what: `${pathName(path)} is ${quoted(valueAt(source.value, path))}; it must be ${range(issue, 'at least', issue.minimum)}`,
    },
  ],
  too_big: (issue, path, source) => [
    {
      code: 'out-of-range',
      what: `${pathName(path)} is ${quoted(valueAt(source.value, path))}; it must be ${range(issue, 'at most', issue.maximum)}`,
    },
  ],
  invalid_format: (_issue, path, source) => [
    { code: 'wrong-kind', what: `${quoted(valueAt(source.value, path))} does not fit ${pathName(path)}` },
  ],
  not_multiple_of: (issue, path, source) => [
    {
      code: 'out-of-range',
      what: `${pathName(path)} is ${quoted(valueAt(source.value, path))}; it must be a multiple of ${issue.divisor}`,
    },
  ],
  invalid_union: (issue, path, source, options) => {
    // The branch that got furthest is the one that was meant.
    const deepest = (branch: readonly Issue[]): number => Math.max(...branch.map((each) => each.path.length));
    const best = [...issue.errors]
      .filter((branch) => branch.length > 0)
      .sort((a, b) => deepest(b) - deepest(a) || a.length - b.length)[0];
    if (best && deepest(best) > 0) return best.flatMap((each) => draft(each, path, source, options));
    const kinds = issue.errors.flatMap((branch) =>
      branch.flatMap((each) => (each.code === 'invalid_type' ? [KINDS[each.expected] ?? each.expected] : [])),
    );
    const options_ = issue.errors.flatMap((branch) =>
      branch.flatMap((each) => (each.code === 'invalid_value' ? each.values.map(String) : [])),
    );
    const wanted = oneOf([...new Set([...options_, ...kinds])]);
    const value = valueAt(source.value, path);
    if (value === undefined) return wrongKind(wanted, path, source);
    const near = typeof value === 'string' ? suggest(value, options_) : undefined;
    return [
      {
        code: options_.length > 0 ? 'not-an-option' : 'wrong-kind',
        what: `${pathName(path)} wants ${wanted || 'something else'}, not ${quoted(value)}`,
        ...(wanted === '' ? {} : { cure: `Write ${wanted} here.` }),
        ...(near === undefined ? {} : { didYouMean: near }),
      },
    ];
  },
  invalid_key: (issue, path) => {
    const key = String(path.at(-1) ?? '');
    const first = issue.issues[0];
    const said = first?.code === 'custom' ? saidIn(first) : undefined;
    return [{ code: 'unknown-key', what: `${quoted(key)} cannot be a name here`, ...said, at: 'key' }];
  },
  invalid_element: (issue, path, source, options) =>
    issue.issues.flatMap((each) => draft(each, path, source, options)),
  custom: (issue, path, source) => {
    const said = saidIn(issue);
    if (said) return [said];
    return [
      {
        code: 'wrong-kind',
        what: issue.message || `${quoted(valueAt(source.value, path))} does not fit ${pathName(path)}`,
      },
    ];
  },
};

const saidIn = (issue: Extract<Issue, { code: 'custom' }>): ZodMessage | undefined => {
  const said: unknown = issue.params?.said;
  return said === undefined ? undefined : (said as ZodMessage);
};

/** What one issue amounts to; a group of unknown names amounts to several problems. */
const draft = (issue: Issue, base: Path, source: Source, options: ZodProblemsOptions): Draft[] => {
  const path = [...base, ...issue.path.map((part) => (typeof part === 'number' ? part : String(part)))];
  // The table's entry for a code takes issues of that code; TypeScript cannot follow the link between the two.
  const speak = SPEAKERS[issue.code] as Speaker<Issue['code']>;
  return speak(issue as never, path, source, options).map((each) => ({ path, ...each }));
};
