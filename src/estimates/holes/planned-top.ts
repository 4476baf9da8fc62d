import type { Action } from '../../casebook/scales.ts';
import type { SurveyedQuilt } from '../../findings/surveyed.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { memoizeByPair } from '../../quantities/memo.ts';

/** What a needle through a unit meets once the plan is carried out: old cloth, old and new together, new, nothing. */
export type Cloth = 'old' | 'covered' | 'new' | 'gone';

export const CLOTHS: readonly Cloth[] = ['old', 'covered', 'new', 'gone'];

const AFTER: Readonly<Record<Action, { readonly present: Cloth; readonly missing: Cloth }>> = {
  keep: { present: 'old', missing: 'gone' },
  restitch: { present: 'old', missing: 'gone' },
  restuff: { present: 'old', missing: 'gone' },
  support: { present: 'covered', missing: 'new' },
  overlay: { present: 'covered', missing: 'new' },
  patch_over: { present: 'covered', missing: 'new' },
  replace: { present: 'new', missing: 'new' },
  remove: { present: 'gone', missing: 'gone' },
};

export const hasOld = (cloth: Cloth): boolean => cloth === 'old' || cloth === 'covered';
export const hasNew = (cloth: Cloth): boolean => cloth === 'new' || cloth === 'covered';

/** What becomes of a group of units under its action; where a unit is missing there is no old cloth to keep. */
export const clothAfter = ({ action, group }: GroupAction): Cloth =>
  AFTER[action][group.state === 'missing' ? 'missing' : 'present'];

/** The quilt top as planned, unit by unit where there is a map, by shares where there is none. */
export interface PlannedTop {
  readonly mapped: boolean;
  /** With a map. Half and quarter units, which no map shows, are old cloth. */
  at(unit: string): Cloth;
  /** Whether a unit is taken out and a new one set in. */
  isReplaced(unit: string): boolean;
  /** Shares of the units; they add up to 1. */
  readonly share: Readonly<Record<Cloth, number>>;
  readonly replacedShare: number;
  /** Shares of the whole quilt's area: half units, strips and borders are old cloth. */
  readonly cover: Readonly<Record<Cloth, number>>;
}

export const plannedTop = ({ quilt, actions }: Pick<Plan, 'quilt' | 'actions'>): PlannedTop =>
  asPlanned(quilt, actions);

const asPlanned = memoizeByPair((quilt: SurveyedQuilt, actions: Plan['actions']): PlannedTop => {
  const cloths = new Map<string, Cloth>();
  const replaced = new Set<string>();
  const share: Record<Cloth, number> = { old: 0, covered: 0, new: 0, gone: 0 };
  const total = Math.max(
    1,
    actions.reduce((sum, { group }) => sum + group.count, 0),
  );
  let replacedCount = 0;
  for (const each of actions) {
    const cloth = clothAfter(each);
    share[cloth] += each.group.count / total;
    if (each.action === 'replace') replacedCount += each.group.count;
    for (const at of each.group.where ?? []) {
      cloths.set(at, cloth);
      if (each.action === 'replace') replaced.add(at);
    }
  }
  if (actions.length === 0) share.old = 1;
  return {
    mapped:
      quilt.counting === 'units' &&
      actions.every(({ group }) => group.count === 0 || group.where !== undefined),
    at: (unit) => cloths.get(unit) ?? 'old',
    isReplaced: (unit) => replaced.has(unit),
    share,
    replacedShare: replacedCount / total,
    cover: coverOf(share, quilt),
  };
});

const coverOf = (
  share: PlannedTop['share'],
  { piecework: { units }, size }: SurveyedQuilt,
): PlannedTop['share'] => {
  const inUnits = units.reduce((sum, { part, area }) => sum + (part === 'whole' ? area : 0), 0);
  const part = Math.min(1, inUnits / (size.width * size.height));
  return {
    old: part * share.old + 1 - part,
    covered: part * share.covered,
    new: part * share.new,
    gone: part * share.gone,
  };
};

/** The groups one action is done to, empty ones left out. */
export const doneTo = (actions: readonly GroupAction[], action: Action): readonly GroupAction[] =>
  actions.filter((each) => each.action === action && each.group.count > 0);
