import type { Situation } from '../../../src/decision/situation.ts';
import { judge } from '../../../src/rulebook/comparisons.ts';
import type { Rule } from '../../../src/rulebook/model.ts';
import { type Draft, put } from './draft.ts';

/** A figure of a plan that a statement of the case is held against: it is met by trying once and scaling. */
interface Fit {
  readonly path: readonly string[];
  readonly guess: number;
  readonly written: (value: number) => string | number;
  /** Whether the finding grows or shrinks with what is written. */
  readonly grows: boolean;
}

const rounded = (value: number): number => Math.round(value * 1e4) / 1e4;

export const FITTED: Readonly<Record<string, Fit>> = {
  'plan.price_to_budget': { path: ['client', 'budget'], guess: 1000, written: rounded, grows: false },
  'plan.years_to_wanted': { path: ['client', 'wanted_years'], guess: 10, written: rounded, grows: false },
  'plan.weeks_to_deadline': {
    path: ['survey', 'findings', 'deadline_weeks'],
    guess: 20,
    written: rounded,
    grows: false,
  },
  'plan.gap_to_rating': {
    path: ['quilt', 'batting', 'rated_gap'],
    guess: 4,
    written: (value) => `${rounded(value)} in`,
    grows: false,
  },
  // Hand stitches follow those of the maker.
  'plan.perforation': {
    path: ['quilt', 'sewn', 'stitches_per_inch'],
    guess: 8,
    written: rounded,
    grows: true,
  },
};

/** Writes what makes the figure come to `wanted` for some plan of which the rest of the rule is true. */
export function fitTo(
  draft: Draft,
  key: string,
  wanted: number,
  rule: Rule,
  prepared: (draft: Draft) => Situation | undefined,
): void {
  const way = FITTED[key];
  if (way === undefined) return;
  put(draft, way.path, way.written(way.guess));
  const situation = prepared(draft);
  if (situation === undefined) return;
  const others = rule.tests.filter((test) => test.key !== key);
  const ofRule = situation.options.filter(({ facts }) =>
    others.every((test) => judge(test.comparison, facts[test.key], test.operand) !== false),
  );
  const got = [...ofRule, ...situation.options]
    .map(({ facts }) => facts[key])
    .find((fact) => typeof fact === 'number' && fact > 0);
  if (typeof got !== 'number' || wanted <= 0) return;
  put(draft, way.path, way.written(way.grows ? (way.guess * wanted) / got : (way.guess * got) / wanted));
}
