import { GRADES } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import { FRAGILE } from './model.ts';

interface Lognormal {
  readonly median: number;
  readonly spread: number;
}

/** What the trade can judge, from figures.yaml under `life`. Lives in wear-years, spreads on the log scale. */
export interface LifePrior {
  /** Share of the quilt that is damaged when a repair is due, and never fewer parts than these. */
  readonly share: number;
  readonly parts: number;
  /** Power of the mean over the parts. */
  readonly power: number;
  /** Lives by grade; failing cloth counts as fragile. */
  readonly cloth: readonly number[];
  readonly thread: readonly number[];
  readonly newWork: number;
  /** Share of a seam's wear that is cloth tearing, by the grade of its weaker side. */
  readonly torn: readonly number[];
  readonly shape: Lognormal;
  readonly differs: Readonly<Record<'cloth' | 'thread' | 'both' | 'fabric' | 'told_wear', number>>;
  readonly clumped: Readonly<Record<'units' | 'seams' | 'ahead', number>>;
  /** Chance that damage came of wear where nobody told the cause. */
  readonly byWear: number;
  readonly strongBesideWeak: number;
  /** Growth of what is left open, as a share of its size in a wear-year. */
  readonly openGrows: number;
  /** Wear so far where the history is unknown. */
  readonly unknownWear: {
    readonly perYear: Lognormal;
    readonly least: number;
    readonly age: Lognormal;
  };
  /** Years beyond which nothing is said. */
  readonly horizon: number;
}

export function lifePrior(figures: Figures): LifePrior {
  const number = (id: string): number => figures.number(`life.${id}`);
  const lognormal = (id: string): Lognormal => ({
    median: number(id),
    spread: figures.figure(`life.${id}`).spread ?? 0,
  });
  // what is failing counts as fragile
  const byGrade = (id: string): number[] =>
    GRADES.map((_, grade) => number(`${id}.${GRADES[Math.min(grade, FRAGILE)]}`));
  return {
    share: number('repair_share'),
    parts: number('repair_parts'),
    power: number('worst_counts'),
    cloth: byGrade('repair_due'),
    thread: GRADES.map((grade) => number(grade === 'sound' ? 'thread.sound' : 'thread.other')),
    newWork: number('new_work'),
    torn: byGrade('torn_by_cloth'),
    shape: lognormal('shape'),
    differs: {
      cloth: number('differs.cloth'),
      thread: number('differs.thread'),
      both: number('differs.both'),
      fabric: number('differs.fabric'),
      told_wear: number('differs.told_wear'),
    },
    clumped: {
      units: number('clumped.units'),
      seams: number('clumped.seams'),
      ahead: number('clumped.ahead'),
    },
    byWear: number('odds.by_wear'),
    strongBesideWeak: number('times.strong_beside_weak'),
    openGrows: number('open_grows'),
    unknownWear: {
      perYear: lognormal('unknown_wear.per_year'),
      least: number('unknown_wear.least'),
      age: lognormal('unknown_wear.age'),
    },
    horizon: number('horizon'),
  };
}
