import type { Rulebook } from './model.ts';

/** The rules in force on a day, each in the wording of that day: `since` included, `until` not. Dates compare as text. */
export const inForce = (rulebook: Rulebook, asOf: string): Rulebook => ({
  ...rulebook,
  rules: rulebook.rules.flatMap((rule) => {
    const then = [rule, ...(rule.earlier ?? [])].find(
      ({ since, until }) => since <= asOf && (until === undefined || asOf < until),
    );
    return then === undefined ? [] : [then];
  }),
});
