import { ProblemError } from '../../problems/problem.ts';
import type { Rule } from '../../rulebook/model.ts';
import { suggest } from '../../source/suggest.ts';

/** The rule of that name, or an error with the nearest name. */
export function namedRule(rules: readonly Rule[], name: string): Rule {
  const found = rules.find(({ id }) => id === name);
  if (found !== undefined) return found;
  const near = suggest(
    name,
    rules.map(({ id }) => id),
  );
  throw new ProblemError([
    {
      code: 'unknown-rule',
      severity: 'error',
      what: `there is no rule "${name}"`,
      cure: '"mendwise rules show" lists them all.',
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  ]);
}
