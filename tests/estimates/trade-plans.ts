import { readFileSync } from 'node:fs';
import type { LayoutSpec, Quilt } from '../../src/casebook/model.ts';
import type { Action, UnitState } from '../../src/casebook/scales.ts';
import type { Figures } from '../../src/figures/model.ts';
import { readFigures } from '../../src/figures/read-figures.ts';
import type { SurveyedQuilt } from '../../src/findings/surveyed.ts';
import { layOut } from '../../src/piecework/lay-out.ts';
import type { GroupAction, Plan, PlanSpec } from '../../src/plans/model.ts';
import { readYaml } from '../../src/source/read-yaml.ts';
import { exactly } from '../findings/exactly.ts';

/** The figures as shipped. */
export const shippedFigures = (): Figures => {
  const reading = readYaml(
    'figures.yaml',
    readFileSync(new URL('../../rules/figures.yaml', import.meta.url), 'utf8'),
  );
  if ('problems' in reading) throw new Error(reading.problems.map(({ what }) => what).join('\n'));
  const { figures, problems } = readFigures(reading.source);
  if (figures === undefined) throw new Error(problems.map(({ what }) => what).join('\n'));
  return figures;
};

/** How many units of a family are in which state, and what is done with them. */
export type Lot = readonly [count: number, state: UnitState, family: string, action: Action];

interface Told {
  readonly size: { readonly width: number; readonly height: number };
  readonly layout: LayoutSpec;
  readonly lots: readonly Lot[];
  readonly patches?: boolean;
  readonly construction?: Quilt['construction'];
  readonly spec: Partial<PlanSpec>;
  readonly resewn: Plan['resewn'];
  readonly joinLength: number;
  readonly opens?: boolean;
}

/** A plan from what the trade tells of one: everything kept and nothing sewn but what is said. */
export const planFor = (told: Told): Plan => {
  const piecework = layOut(told.layout, told.size);
  const total = told.lots.reduce((sum, [count]) => sum + count, 0);
  const actions: GroupAction[] = told.lots.map(([count, state, family, action]) => ({
    group: { state, family, count, ...exactly(count / total) },
    action,
    rules: [],
  }));
  const letters = [...new Set(told.lots.map(([, , family]) => family))];
  const quilt: SurveyedQuilt = {
    piecework,
    counting: told.patches === true ? 'patches' : 'units',
    total,
    size: told.size,
    construction: told.construction,
    families: Object.fromEntries(
      letters.map((letter) => [
        letter,
        {
          letter,
          name: `family ${letter}`,
          fibre: 'cotton',
          fragility: 1,
          dyeBleed: undefined,
          selfDestructing: undefined,
          share: 1 / letters.length,
        },
      ]),
    ),
    groups: actions.map(({ group }) => group),
    joins: {
      total: piecework.joins.length,
      inspected: undefined,
      open: undefined,
      thread: undefined,
      cloth: undefined,
      allowance: undefined,
      length: told.joinLength,
      openAt: [],
    },
  };
  return {
    treatment: 'reassemble',
    joining: 'none',
    backing: 'keep',
    batting: 'keep',
    pattern: 'none',
    directions: 'both',
    sewnBy: 'hand',
    newBatting: undefined,
    ...told.spec,
    id: 'as told',
    quilt,
    actions,
    resewn: told.resewn,
    gaps: { after: undefined, rated: undefined },
    opens: told.opens ?? false,
  };
};

const square = (rows: number, columns: number, side: number): LayoutSpec => ({
  kind: 'edge to edge',
  rows,
  columns,
  finished: { width: side, height: side },
});

/** Four worked jobs of the trade, with the hours it reckons for each before and after a fifth on top. */
export const spread = planFor({
  size: { width: 72, height: 72 },
  layout: { ...square(8, 8, 9), pieces_per_unit: 9 },
  lots: [
    [61, 'sound', 'A', 'keep'],
    [3, 'edge', 'A', 'support'],
  ],
  spec: { batting: 'none' },
  resewn: { joins: 40, by: 'hand' },
  joinLength: 9,
});

export const squares = planFor({
  size: { width: 70, height: 90 },
  layout: square(9, 7, 10),
  lots: [
    [45, 'sound', 'A', 'keep'],
    [8, 'lost', 'B', 'replace'],
    [6, 'worn', 'B', 'overlay'],
    [4, 'worn', 'B', 'keep'],
  ],
  spec: {
    treatment: 'backing',
    joining: 'tacks',
    backing: 'replace',
    batting: 'none',
    pattern: 'every crossing',
  },
  resewn: { joins: 28, by: 'hand' },
  joinLength: 10,
  opens: true,
});

export const comfort = planFor({
  size: { width: 60, height: 80 },
  layout: { ...square(16, 12, 5), pieces_per_unit: 1 },
  construction: 'tied_comforter',
  lots: [
    [185, 'sound', 'A', 'keep'],
    [7, 'lost', 'A', 'replace'],
  ],
  spec: {
    treatment: 'tie',
    joining: 'ties',
    batting: 'replace',
    newBatting: 'cotton',
    pattern: 'every crossing',
  },
  resewn: { joins: 16, by: 'hand' },
  joinLength: 5,
  opens: true,
});

export const patchwork = planFor({
  size: { width: 80, height: 80 },
  layout: { ...square(10, 10, 8), pieces_per_unit: 1 },
  lots: [
    [86, 'sound', 'A', 'keep'],
    [14, 'hole', 'A', 'replace'],
  ],
  spec: {
    treatment: 'lines',
    joining: 'lines',
    batting: 'replace',
    newBatting: 'cotton',
    pattern: 'every seam',
    sewnBy: 'machine',
  },
  resewn: { joins: 24, by: 'machine' },
  joinLength: 8,
  opens: true,
});
