import { createHash } from 'node:crypto';
import type { Problem } from '../problems/problem.ts';
import { suggest } from '../source/suggest.ts';
import { type Rule, type Rulebook, STAGES } from './model.ts';

const GROUP_ORDER: readonly string[] = ['units', ...STAGES];

/** The order of rules in their files means nothing: they stand in stage order, then by name. */
const byStageThenName = (a: Rule, b: Rule): number =>
  GROUP_ORDER.indexOf(a.group) - GROUP_ORDER.indexOf(b.group) || (a.id < b.id ? -1 : 1);

/**
 * Joins rules from all files to one book. `texts` are the files' contents, for the digest that recorded
 * decisions cite; `version` is the latest date on which any rule in it changed. `names` are those of all rules
 * written, so that giving way to a rule that could not be read is not reported a second time.
 */
export function assembleRulebook(
  rules: readonly Rule[],
  texts: readonly string[],
  names: readonly string[] = rules.map((rule) => rule.id),
): { rulebook: Rulebook; problems: Problem[] } {
  const problems = [...duplicates(rules), ...danglingYields(rules, names), ...circles(rules)];
  const version =
    rules
      .flatMap((rule) => [rule.since, ...rule.was.map((was) => was.until)])
      .sort()
      .at(-1) ?? 'none';
  const digest = createHash('sha256')
    .update([...texts].sort().join('\u0000'))
    .digest('hex')
    .slice(0, 16);
  return { rulebook: { version, digest, rules: [...rules].sort(byStageThenName) }, problems };
}

function duplicates(rules: readonly Rule[]): Problem[] {
  const first = new Map<string, Rule>();
  return rules.flatMap((rule): Problem[] => {
    const earlier = first.get(rule.id);
    if (earlier === undefined) {
      first.set(rule.id, rule);
      return [];
    }
    const where = `${earlier.place.file}:${earlier.place.line}`;
    return [
      {
        code: 'duplicate-rule',
        severity: 'error',
        what: `A rule called "${rule.id}" stands already at ${where}`,
        place: rule.place,
      },
    ];
  });
}

function danglingYields(rules: readonly Rule[], ids: readonly string[]): Problem[] {
  return rules.flatMap((rule) =>
    rule.yieldsTo
      .filter((other) => !ids.includes(other))
      .map((other): Problem => {
        const near = suggest(other, ids);
        return {
          code: 'unknown-rule',
          severity: 'error',
          what: `"${rule.id}" yields to "${other}", which does not exist`,
          place: rule.yieldsAt?.[rule.yieldsTo.indexOf(other)] ?? rule.place,
          ...(near === undefined ? {} : { didYouMean: near }),
        };
      }),
  );
}

function circles(rules: readonly Rule[]): Problem[] {
  const next = new Map(rules.map((rule) => [rule.id, rule.yieldsTo]));
  const reaches = (from: string, goal: string, seen: Set<string>): boolean =>
    (next.get(from) ?? []).some((to) => to === goal || (!seen.has(to) && reaches(to, goal, seen.add(to))));
  return rules
    .filter((rule) => reaches(rule.id, rule.id, new Set()))
    .map((rule) => ({
      code: 'yields-in-a-circle',
      severity: 'error',
      what: `"${rule.id}" gives way, by way of others, to itself`,
      place: rule.yieldsAt?.[0] ?? rule.place,
    }));
}

/**
 * The rules in force on a day, each in the wording of that day: `since` included, `until` not. Dates compare as text. What
 * stops a quilt counts on every day before it was written as well: a hazard was one before anybody wrote its rule.
 */
export const inForce = (rulebook: Rulebook, asOf: string): Rulebook => ({
  ...rulebook,
  rules: rulebook.rules.flatMap((rule) => {
    const wordings = [rule, ...(rule.earlier ?? [])];
    const isFromTheFirst = (wording: Rule): boolean => rule.group === 'stop' && wording === wordings.at(-1);
    const then = wordings.find(
      (each) =>
        (each.since <= asOf || isFromTheFirst(each)) && (each.until === undefined || asOf < each.until),
    );
    return then === undefined ? [] : [then];
  }),
});
