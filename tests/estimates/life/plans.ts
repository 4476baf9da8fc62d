import type { Action } from '../../../src/casebook/scales.ts';
import type {
  SurveyedFamily,
  SurveyedJoins,
  SurveyedQuilt,
  UnitGroup,
} from '../../../src/findings/surveyed.ts';
import { layOut } from '../../../src/piecework/lay-out.ts';
import type { Plan } from '../../../src/plans/model.ts';
import { exactly } from '../../findings/exactly.ts';

/** An invented quilt of 4 × 5 blocks, 31 joins: A brown print, B blue stripe, laid as the groups say. */
const size = { width: 50, height: 40 };
const piecework = layOut(
  { kind: 'edge to edge', rows: 4, columns: 5, finished: { width: 10, height: 10 } },
  size,
  'pieced',
);

export const family = (
  letter: string,
  name: string,
  changes: Partial<SurveyedFamily> = {},
): SurveyedFamily => ({
  letter,
  name,
  fibre: 'cotton',
  fragility: 1,
  dyeBleed: 0,
  selfDestructing: false,
  share: 0.5,
  ...changes,
});

export const group = (
  letter: string | undefined,
  count: number,
  state: UnitGroup['state'] = 'sound',
  where?: readonly string[],
): UnitGroup => ({ state, family: letter, count, ...exactly(count / 20, where) });

export interface Given {
  readonly families?: readonly SurveyedFamily[];
  readonly groups?: readonly (readonly [UnitGroup, Action])[];
  readonly joins?: Partial<SurveyedJoins>;
  readonly causes?: NonNullable<SurveyedQuilt['causes']>;
  readonly plan?: Partial<Plan>;
}

export function planOf(given: Given = {}): Plan {
  const families = given.families ?? [family('A', 'brown print'), family('B', 'blue stripe')];
  const groups = given.groups ?? [
    [group('A', 10), 'keep'],
    [group('B', 10), 'keep'],
  ];
  const quilt: SurveyedQuilt = {
    piecework,
    counting: 'units',
    total: 20,
    size,
    construction: 'pieced',
    families: Object.fromEntries(families.map((one) => [one.letter, one])),
    groups: groups.map(([one]) => one),
    ...(given.causes === undefined ? {} : { causes: given.causes }),
    joins: {
      total: piecework.joins.length,
      inspected: undefined,
      open: undefined,
      thread: undefined,
      cloth: undefined,
      allowance: undefined,
      length: 10,
      openAt: [],
      ...given.joins,
    },
  };
  return {
    id: 'plan',
    treatment: 'reassemble',
    joining: 'none',
    backing: 'keep',
    batting: 'none',
    pattern: 'none',
    directions: 'both',
    sewnBy: 'hand',
    newBatting: undefined,
    quilt,
    actions: groups.map(([one, action]) => ({ group: one, action, rules: [] })),
    resewn: { joins: 0, by: 'hand' },
    gaps: { after: 4, rated: 8 },
    opens: false,
    ...given.plan,
  };
}
