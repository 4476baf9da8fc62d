import type { Expectation } from '../casebook/model.ts';
import type { Answer } from './answer-model.ts';

/** One way in which an answer is not what its case expects. */
export interface Difference {
  readonly of: keyof Expectation;
  /** A sentence: "standing is decline, not go_ahead". */
  readonly what: string;
}

type Compare = (expect: Expectation, answer: Answer) => string[];

const differs = (name: string, got: string, wanted: string): string[] =>
  got === wanted ? [] : [`${name} is ${got}, not ${wanted}`];

const cited = (answer: Answer): ReadonlySet<string> => new Set(answer.reasons.map(({ rule }) => rule));

/** What may be expected, and how it is compared; what a case does not name is not compared. */
const COMPARES: { readonly [K in keyof Required<Expectation>]: Compare } = {
  standing: ({ standing }, answer) =>
    standing === undefined ? [] : differs('standing', answer.standing, standing),
  treatment: ({ treatment }, answer) =>
    treatment === undefined ? [] : differs('treatment', answer.treatment ?? 'none', treatment ?? 'none'),
  provisional: ({ provisional }, answer) =>
    provisional === undefined
      ? []
      : differs('provisional', answer.provisional ? 'yes' : 'no', provisional ? 'yes' : 'no'),
  because: ({ because = [] }, answer) =>
    because
      .filter((rule) => !cited(answer).has(rule))
      .map((rule) => `the rule ${rule} is not among the reasons`),
  not_because: ({ not_because: not = [] }, answer) =>
    not.filter((rule) => cited(answer).has(rule)).map((rule) => `the rule ${rule} is among the reasons`),
  refused_uses: ({ refused_uses: uses }, answer) =>
    uses === undefined ? [] : differs('refused uses', listed(answer.refused_uses), listed(uses)),
};

const listed = (words: readonly string[]): string =>
  words.length === 0 ? 'none' : [...words].sort().join(', ');

/** Where an answer departs from what its case expects; empty where all of it holds. */
export const differences = (expect: Expectation, answer: Answer): Difference[] =>
  (Object.keys(COMPARES) as (keyof Expectation)[]).flatMap((of) =>
    COMPARES[of](expect, answer).map((what) => ({ of, what })),
  );
