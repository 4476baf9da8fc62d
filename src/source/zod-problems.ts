import type { Problem } from '../problems/problem.ts';
import { groupName, pathName, valueAt } from './path-words.ts';
import type { Source } from './source.ts';
import { quoted } from './spoken.ts';
import { draft, type Issue, type ZodProblemsOptions } from './zod-speakers.ts';

export type { ZodProblemsOptions } from './zod-speakers.ts';

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
