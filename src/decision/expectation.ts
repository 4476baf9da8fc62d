import type { Expectation } from '../casebook/model.ts';
import type { Answer } from './answer-model.ts';

/** One way in which an answer is not what its case expects. */
export interface Difference {
  readonly of: keyof Expectation;
  /** A sentence: "standing is decline, not go_ahead". */
  readonly what: string;
}

/** As much of an answer as can be expected. */
export type Expectable = Pick<Answer, 'standing' | 'treatment' | 'provisional' | 'refused_uses'> & {
  /** Every rule the answer names: for its reasons, and for what it cautions, asks, offers or sets as a condition. */
  readonly cited: ReadonlySet<string>;
  /** What is done with units in the plan recommended. */
  readonly actions: readonly string[];
};

type Compare = (expect: Expectation, answer: Expectable) => string[];

const differs = (name: string, got: string, wanted: string): string[] =>
  got === wanted ? [] : [`${name} is ${got}, not ${wanted}`];

export const expectable = (answer: Answer): Expectable => ({
  ...answer,
  actions: Object.keys(answer.plan?.actions ?? {}),
  cited: new Set(
    [
      answer.reasons,
      answer.cautions,
      answer.conditions,
      answer.offers,
      answer.ask_others,
      answer.asks,
    ].flatMap((named) => named.map(({ rule }) => rule)),
  ),
});

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
    because.filter((rule) => !answer.cited.has(rule)).map((rule) => `the rule ${rule} is not cited`),
  not_because: ({ not_because: not = [] }, answer) =>
    not.filter((rule) => answer.cited.has(rule)).map((rule) => `the rule ${rule} is cited`),
  refused_uses: ({ refused_uses: uses }, answer) =>
    uses === undefined ? [] : differs('refused uses', listed(answer.refused_uses), listed(uses)),
  actions: ({ actions }, answer) =>
    actions === undefined ? [] : differs('what is done with units', listed(answer.actions), listed(actions)),
};

const listed = (words: readonly string[]): string =>
  words.length === 0 ? 'none' : [...words].sort().join(', ');

/** Where an answer departs from what its case expects; empty where all of it holds. */
export const differences = (expect: Expectation, answer: Answer): Difference[] =>
  departures(expect, expectable(answer));

/** The same for an answer made without its sentences, as sweeps make it. */
export const departures = (expect: Expectation, answer: Expectable): Difference[] =>
  (Object.keys(COMPARES) as (keyof Expectation)[]).flatMap((of) =>
    COMPARES[of](expect, answer).map((what) => ({ of, what })),
  );
