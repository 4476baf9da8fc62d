import { GRADES } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';

/** What the trade can judge, from figures.yaml under `life`. Wear in wear-years. */
export interface LifePrior {
  /** Share of an element whose failing calls for the next repair. */
  readonly share: number;
  /** Wear until that share fails, by grade: median and log-spread. The worst grade has none: no forecast is offered. */
  readonly due: readonly { readonly median: number; readonly spread: number }[];
  /** Weibull shape: median and log-spread. */
  readonly shape: { readonly median: number; readonly spread: number };
  /** Wear so far where the history is unknown. */
  readonly unknownWear: {
    readonly perYear: number;
    readonly spread: number;
    readonly least: number;
    readonly age: number;
    readonly ageSpread: number;
  };
  /** Years beyond which nothing is said. */
  readonly horizon: number;
}

export function lifePrior(figures: Figures): LifePrior {
  const spread = (id: string): number => figures.figure(id).spread ?? 0;
  return {
    share: figures.number('life.repair_share'),
    due: GRADES.filter((grade) => figures.has(`life.repair_due.${grade}`)).map((grade) => ({
      median: figures.number(`life.repair_due.${grade}`),
      spread: spread(`life.repair_due.${grade}`),
    })),
    shape: { median: figures.number('life.shape'), spread: spread('life.shape') },
    unknownWear: {
      perYear: figures.number('life.unknown_wear.per_year'),
      spread: spread('life.unknown_wear.per_year'),
      least: figures.number('life.unknown_wear.least'),
      age: figures.number('life.unknown_wear.age'),
      ageSpread: spread('life.unknown_wear.age'),
    },
    horizon: figures.number('life.horizon'),
  };
}
