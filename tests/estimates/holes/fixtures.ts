import { readFileSync } from 'node:fs';
import type { LayoutSpec } from '../../../src/casebook/model.ts';
import type { Action, UnitState } from '../../../src/casebook/scales.ts';
import type { Figures } from '../../../src/figures/model.ts';
import { readFigures } from '../../../src/figures/read-figures.ts';
import type { SurveyedQuilt } from '../../../src/findings/surveyed.ts';
import { layOut } from '../../../src/piecework/lay-out.ts';
import type { GroupAction, Plan, PlanSpec } from '../../../src/plans/model.ts';
import { readYaml } from '../../../src/source/read-yaml.ts';
import { exactly } from '../../findings/exactly.ts';

const file = new URL('../../../rules/figures.yaml', import.meta.url).pathname;

const shipped = (): Figures => {
  // Only the section under test, so that no other section decides whether these tests run.
  const section = /^stitching:.*\n(?:(?: .*)?\n)*/m.exec(readFileSync(file, 'utf8'))?.[0] ?? '';
  const reading = readYaml(file, section);
  if (!('source' in reading)) throw new Error(JSON.stringify(reading.problems));
  const { figures, problems } = readFigures(reading.source);
  if (figures === undefined) throw new Error(JSON.stringify(problems));
  return figures;
};

export const FIGURES: Figures = shipped();

/** The shipped figures with some settings changed, as a practitioner would. */
export const withFigures = (changed: Readonly<Record<string, number>>): Figures => {
  const number = (id: string): number => changed[id] ?? FIGURES.number(id);
  return {
    ...FIGURES,
    number,
    range: (id) => FIGURES.range(id),
    figure: (id) => FIGURES.figure(id),
    has: (id) => FIGURES.has(id),
    below: (prefix) => FIGURES.below(prefix),
  };
};

export interface Work {
  readonly action: Action;
  readonly state?: UnitState;
  readonly count?: number;
  readonly where?: readonly string[];
}

/** A quilt of a given layout, and what is done with its units; the rest is kept. Positions make it a mapped quilt. */
export const planFor = (
  layout: LayoutSpec,
  size: { readonly width: number; readonly height: number },
  work: readonly Work[],
  spec: Partial<PlanSpec> & { readonly resewn?: Plan['resewn']; readonly opens?: boolean } = {},
  mapped = work.some(({ where }) => where !== undefined),
): Plan => {
  const piecework = layOut(layout, size);
  const total = piecework.units.filter((unit) => unit.part === 'whole').length;
  const worked = new Set(work.flatMap(({ where }) => where ?? []));
  const kept = piecework.units
    .filter((unit) => unit.part === 'whole' && !worked.has(unit.at))
    .map(({ at }) => at);
  const count = ({ count: stated, where }: Work): number => stated ?? where?.length ?? 0;
  const doneTo = work.reduce((sum, each) => sum + count(each), 0);
  const group = (each: Work): GroupAction => ({
    action: each.action,
    rules: [],
    group: {
      state: each.state ?? 'sound',
      family: undefined,
      count: count(each),
      ...exactly(count(each) / total, mapped ? (each.where ?? []) : undefined),
    },
  });
  const actions = [...work.map(group), group({ action: 'keep', count: total - doneTo, where: kept })];
  const quilt: SurveyedQuilt = {
    piecework,
    counting: 'units',
    total,
    size,
    construction: undefined,
    families: {},
    groups: actions.map((each) => each.group),
    joins: {
      total: piecework.joins.length,
      inspected: undefined,
      open: undefined,
      thread: undefined,
      cloth: undefined,
      allowance: undefined,
      length:
        piecework.joins.reduce((sum, join) => sum + join.length, 0) / Math.max(1, piecework.joins.length),
      openAt: [],
    },
  };
  const { resewn = { joins: 0, by: 'hand' }, opens = false, ...chosen } = spec;
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
    ...chosen,
    quilt,
    actions,
    resewn,
    gaps: { after: undefined, rated: undefined },
    opens,
  };
};
