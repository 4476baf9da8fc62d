import { GRADES } from '../../casebook/scales.ts';
import { type GradeWeights, type PlannedQuilt, type SeamShares, WEAK } from './model.ts';
import type { LifePrior } from './prior.ts';

/** A part of a planned quilt that gives way by one hazard: cloth's and thread's together. */
export interface Term {
  /** Words for a client. */
  readonly name: string;
  /** Share of the seams, where it is of seams; else share of the quilt's damage. */
  readonly weight: number;
  readonly seam: boolean;
  /** Kind whose cloth it hangs by; undefined for other cloth of the quilt, which has the life of its grade. */
  readonly kind: number | undefined;
  readonly grade: number;
  /** What multiplies the life of its cloth. */
  readonly stretch: number;
  /** How much of the hazards of its cloth and of its thread it meets. */
  readonly cloth: number;
  readonly thread: number;
  /** True where its thread is new, or its cloth where it has no thread. */
  readonly renewed: boolean;
}

/** A planned quilt as its terms, where its kinds of cloth have these grades. */
export interface Terms {
  readonly cloth: readonly Term[];
  readonly seams: readonly Term[];
  /** How much of the quilt's damage that of its seams is. */
  readonly seamWeight: number;
}

/** New work, or other cloth of the quilt: what of a term goes without saying. */
const PLAIN = {
  seam: false,
  kind: undefined,
  grade: 0,
  stretch: 1,
  cloth: 1,
  thread: 0,
  renewed: false,
} as const;

export function termsOf(plan: PlannedQuilt, grades: readonly number[], prior: LifePrior): Terms {
  const beside = plan.sides.reduce((sum, { weight }) => sum + weight, 0);
  const anySeams = Object.values(plan.seams).some((share) => share > 0);
  const top = anySeams ? (1 - beside) / 2 : 1 - beside;
  const parts = plan.parts.map((part) => {
    const grade = grades[part.kind] ?? 0;
    return { ...part, grade, stretch: part.stretch[grade] ?? 1 };
  });
  const cloth: Term[] = [
    ...parts.map(({ share, ...own }) => ({ ...PLAIN, ...own, weight: top * share })),
    { ...PLAIN, name: 'the new cloth', weight: top * plan.fresh, renewed: true },
    ...plan.sides.map(({ fresh, ...own }) => ({ ...PLAIN, ...own, renewed: fresh })),
  ];
  return {
    cloth: cloth.filter(({ weight }) => weight > 0),
    seams: seamTerms(parts, plan, prior).filter(({ weight }) => weight > 0),
    seamWeight: anySeams ? top : 0,
  };
}

type Graded = Pick<Term, 'name' | 'grade' | 'stretch'> & { readonly kind: number; readonly share: number };

const SEAM_NAMES: Readonly<Record<keyof SeamShares, string>> = {
  left: 'the old seams left as they are',
  resewn: 'the resewn seams',
  mixed: 'the seams between old cloth and new',
  edge: 'the seams beside what is left open',
  fresh: 'the new seams',
};

/** Seams by the cloth that is their weaker side: by that cloth they tear, and by their thread they open. */
function seamTerms(parts: readonly Graded[], { seams, held }: PlannedQuilt, prior: LifePrior): Term[] {
  const old = parts.reduce((sum, { share }) => sum + share, 0);
  const weaker = weakerSides(parts);
  const terms = parts.flatMap(({ kind, share, grade, stretch }, i) => {
    const torn = prior.torn[grade] ?? 0;
    const term = (where: keyof SeamShares, weight: number, own: Partial<Term> = {}): Term => ({
      name: SEAM_NAMES[where],
      weight: seams[where] * weight,
      seam: true,
      kind,
      grade,
      stretch,
      cloth: torn,
      thread: (1 - torn) * held,
      renewed: false,
      ...own,
    });
    const both = weaker[i] ?? 0;
    const one = share / old;
    // what is new, or gone, leaves the load to the old side
    const alone = stretch * (grade >= WEAK ? prior.strongBesideWeak : 1);
    return [
      term('left', both),
      term('resewn', both, { renewed: true }),
      term('mixed', one, { renewed: true, stretch: alone }),
      term('edge', one, { stretch: alone }),
    ];
  });
  const fresh: Term = {
    ...PLAIN,
    name: SEAM_NAMES.fresh,
    weight: seams.fresh,
    seam: true,
    cloth: 0,
    thread: held,
    renewed: true,
  };
  return [...terms, fresh];
}

/** Marks of chances nearer than this are one. */
const LEAST = 1e-9;

/**
 * What the grades of several kinds may be, and how likely they are together. Kinds that nobody graded are bad together:
 * one chance stands for how bad all that is ungraded in this quilt is, and each kind takes the grade its own chances give
 * to it.
 */
export function gradings(
  kinds: readonly GradeWeights[],
): readonly { readonly grades: readonly number[]; readonly weight: number }[] {
  const ends = kinds.map((chances) => {
    let sum = 0;
    return GRADES.map((_, grade) => {
      sum += chances[grade] ?? 0;
      return sum;
    });
  });
  const marks = [...new Set([0, ...ends.flat()])].sort((a, b) => a - b);
  return marks.slice(1).flatMap((to, i) => {
    const from = marks[i] ?? 0;
    const grades = ends.map((own) => own.findIndex((end) => end > (from + to) / 2));
    return to - from < LEAST ? [] : [{ grades, weight: to - from }];
  });
}

/**
 * How likely each of some cloths is to be the weaker side of a join, sides falling by their shares of the cloth; of two
 * of one grade each as often.
 */
export function weakerSides(
  cloths: readonly { readonly share: number; readonly grade: number }[],
): readonly number[] {
  const all = cloths.reduce((sum, { share }) => sum + share, 0);
  const upTo = (grade: number): number =>
    cloths.reduce((sum, cloth) => sum + (cloth.grade <= grade ? cloth.share : 0), 0) / all;
  return cloths.map(({ grade, share }) => {
    const [with_, without] = [upTo(grade), upTo(grade - 1)];
    const own = with_ - without;
    return own > 0 ? ((with_ * with_ - without * without) * (share / all)) / own : 0;
  });
}
