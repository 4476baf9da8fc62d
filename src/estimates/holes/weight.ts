import { GRADES, type Grade } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import { highest, lowest } from '../../findings/fact.ts';
import type { UnitGroup } from '../../findings/surveyed.ts';
import { clothAfter, hasOld } from './planned-top.ts';
import { type Layout, oncePerTop } from './sewing.ts';

const WORN = GRADES.indexOf('worn');

const weightOf = (grade: number, figures: Figures): number =>
  figures.number(`stitching.weight.${GRADES[grade] ?? 'failing'}`);

/** What a hole in cloth of unknown grade counts: that of worn cloth. */
export const weightOfGrade = (grade: Grade | undefined, figures: Figures): number =>
  weightOf(grade === undefined ? WORN : GRADES.indexOf(grade), figures);

interface Weights {
  /** By unit, where there is a map. */
  readonly at: ReadonlyMap<string, number>;
  /** Of the old cloth of the top, by area. */
  readonly mean: number;
}

const grades = oncePerTop(({ plan: { quilt, actions } }: Layout) => {
  const families = Object.values(quilt.families);
  const any = families.map(({ fragility, share }) => ({ fragility, area: highest(share) }));
  const of = ({ family, state }: UnitGroup) => {
    const known = family === undefined ? undefined : quilt.families[family]?.fragility;
    const cloths = known !== undefined ? [{ fragility: known, area: 1 }] : any;
    const least = state === 'worn' ? WORN : 0;
    return cloths.map(({ fragility, area }) => ({
      area,
      // Between the best and the worst it may be.
      grades: [Math.max(least, lowest(fragility)), Math.max(least, highest(fragility))],
    }));
  };
  return actions
    .filter((each) => hasOld(clothAfter(each)) && each.group.count > 0)
    .map(({ group }) => ({ share: group.share, where: group.where ?? [], cloths: of(group) }));
});

/** What a hole in each part of the top counts: more, the less the cloth there bears another. */
export const weights = (layout: Layout, figures: Figures): Weights => {
  const at = new Map<string, number>();
  let [sum, area] = [0, 0];
  for (const { share, where, cloths } of grades(layout)) {
    const whole = cloths.reduce((all, each) => all + each.area, 0);
    const weight =
      whole === 0
        ? weightOf(WORN, figures)
        : cloths.reduce(
            (all, each) =>
              all + (each.area / whole) * mean(each.grades.map((grade) => weightOf(grade, figures))),
            0,
          );
    sum += share * weight;
    area += share;
    for (const unit of where) at.set(unit, weight);
  }
  return { at, mean: area === 0 ? weightOf(WORN, figures) : sum / area };
};

const mean = (values: readonly number[]): number =>
  values.reduce((all, each) => all + each, 0) / Math.max(1, values.length);
