import type { Family, Quilt, QuiltCase, Survey } from '../../src/casebook/model.ts';
import { type Action, UNIT_STATES, type UnitState } from '../../src/casebook/scales.ts';
import { foundFacts, plannedFacts } from '../../src/findings/as-found.ts';
import type { Facts } from '../../src/findings/fact.ts';
import { latestLook } from '../../src/findings/latest-look.ts';
import type { Treated } from '../../src/findings/old-cloth.ts';
import { surveyQuilt } from '../../src/findings/survey-quilt.ts';
import type { SurveyedQuilt, UnitGroup } from '../../src/findings/surveyed.ts';
import { figures } from './figures-fixture.ts';
import { vocabulary } from './vocabulary-fixture.ts';

export interface Sketch {
  readonly rows?: number;
  readonly columns?: number;
  readonly quilt?: Partial<Quilt>;
  readonly survey?: Partial<Survey>;
  readonly case?: Partial<QuiltCase>;
}

/** An invented quilt of 10 in blocks, seen in hand. */
export const sketch = ({
  rows = 10,
  columns = 10,
  quilt = {},
  survey = {},
  case: rest = {},
}: Sketch = {}): QuiltCase => ({
  mendwise: 1,
  case: 'invented',
  opened: '2026-03-02',
  client: {},
  quilt: {
    size: { width: 10 * columns, height: 10 * rows },
    layout: { kind: 'edge to edge', rows, columns, finished: { width: 10, height: 10 } },
    ...quilt,
  },
  survey: { seen: 'in hand', findings: {}, ...survey },
  resurveys: [],
  photos: [],
  ...rest,
});

const MARKS = new Map(
  Object.entries(UNIT_STATES).map(([state, mark]) => [mark as string, state as UnitState]),
);

/** Rows of marks as in a case file. */
export const states = (...rows: readonly string[]): readonly (readonly UnitState[])[] =>
  rows.map((row) =>
    [...row.replaceAll(' ', '')].map((mark) => {
      const state = MARKS.get(mark);
      if (state === undefined) throw new Error(`no such mark: ${mark}`);
      return state;
    }),
  );

export const letters = (...rows: readonly string[]): readonly (readonly string[])[] =>
  rows.map((row) => [...row.replaceAll(' ', '')]);

export const family = (fragility: NonNullable<Family['fragility']>, rest: Partial<Family> = {}): Family => ({
  fragility,
  fibre: 'cotton',
  dye_bleed: 'none',
  self_destructing: false,
  ...rest,
});

export const surveyed = (c: QuiltCase): SurveyedQuilt => surveyQuilt(latestLook(c), figures);

export const found = (c: QuiltCase): Facts => foundFacts(latestLook(c), surveyed(c), vocabulary, figures);

/** Facts as planned, with one action for each group. */
export const planned = (c: QuiltCase, choose: (group: UnitGroup) => Action): Facts => {
  const quilt = surveyed(c);
  const actions: readonly Treated[] = quilt.groups.map((group) => ({ group, action: choose(group) }));
  return plannedFacts(quilt, actions, vocabulary, figures);
};
