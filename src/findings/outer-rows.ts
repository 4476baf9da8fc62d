import type { Piecework, Unit } from '../piecework/model.ts';
import { oncePer } from '../quantities/once.ts';
import type { Fact } from './fact.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';
import { isGone } from './takings.ts';

/** Inches: coordinates this close are the same edge. */
const NEAR = 1e-6;

const extentOf = ({ at, outline }: Unit) => ({
  at,
  left: Math.min(...outline.map(({ x }) => x)),
  right: Math.max(...outline.map(({ x }) => x)),
  top: Math.min(...outline.map(({ y }) => y)),
  bottom: Math.max(...outline.map(({ y }) => y)),
});

/** Names of the whole units in the outermost rows. */
const outerUnits = oncePer(({ units }: Piecework): ReadonlySet<string> => {
  const whole = units.filter(({ part }) => part === 'whole').map(extentOf);
  const edge = {
    left: Math.min(...whole.map(({ left }) => left)),
    right: Math.max(...whole.map(({ right }) => right)),
    top: Math.min(...whole.map(({ top }) => top)),
    bottom: Math.max(...whole.map(({ bottom }) => bottom)),
  };
  const near = (a: number, b: number): boolean => Math.abs(a - b) < NEAR;
  const outer = whole.filter(
    (unit) =>
      near(unit.left, edge.left) ||
      near(unit.right, edge.right) ||
      near(unit.top, edge.top) ||
      near(unit.bottom, edge.bottom),
  );
  return new Set(outer.map(({ at }) => at));
});

/** From a map: whether whatever is gone or holed lies in the outermost rows only. Unknown without a map. */
export const lossInOuterRowsOnly = (quilt: SurveyedQuilt): Fact => {
  if (quilt.groups.some(({ where }) => where === undefined)) return undefined;
  const outer = outerUnits(quilt.piecework);
  const places = (wanted: (group: UnitGroup) => boolean) =>
    quilt.groups.filter(wanted).flatMap(({ where }) => where ?? []);
  const damaged = places((group) => isGone(group) || group.state === 'hole');
  if (damaged.some((at) => !outer.has(at))) return false;
  const unseen = places(({ state }) => state === 'unseen');
  if (unseen.some((at) => !outer.has(at))) return undefined;
  if (damaged.length > 0) return true;
  return unseen.length > 0 ? undefined : false;
};
