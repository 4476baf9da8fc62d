import type { QuiltCase, Resurvey, Survey } from '../casebook/model.ts';
import type { UnitState } from '../casebook/scales.ts';
import { betaBinomial } from '../estimates/beta-binomial.ts';
import type { Figures } from '../figures/model.ts';
import { linearPosterior } from '../statistics/linear-posterior.ts';
import { type Proposal, threeDigits } from './proposal.ts';

/** What came to light when a quilt was opened. */
export interface HiddenDamage {
  readonly case: string;
  /** Units thought sound, or worn only, before. */
  readonly thoughtSound: number;
  /** Of those, found holed, slit, lost or missing. */
  readonly found: number;
}

const DAMAGED: readonly UnitState[] = ['hole', 'split', 'lost', 'missing'];
const SOUND: readonly UnitState[] = ['sound', 'worn'];

/** Hidden damage of a quilt that was opened; undefined where it was not, or where either look had no map or counts. */
export const hiddenDamage = (quiltCase: QuiltCase): HiddenDamage | undefined => {
  let before: Pick<Survey, 'units' | 'counts'> = quiltCase.survey;
  for (const later of quiltCase.resurveys) {
    const states = later.units ?? later.counts;
    if (later.opened === true && states !== undefined) return compared(quiltCase.case, before, later);
    if (states !== undefined) before = later;
  }
  return undefined;
};

const compared = (
  name: string,
  before: Pick<Survey, 'units' | 'counts'>,
  after: Pick<Resurvey, 'units' | 'counts'>,
): HiddenDamage | undefined => {
  if (before.units !== undefined && after.units !== undefined) {
    const pairs = before.units.flatMap((row, r) =>
      row.map((state, c) => [state, after.units?.[r]?.[c]] as const),
    );
    const sound = pairs.filter(([was]) => SOUND.includes(was));
    const found = sound.filter(([, is]) => is !== undefined && DAMAGED.includes(is)).length;
    return { case: name, thoughtSound: sound.length, found };
  }
  const was = tally(before);
  const is = tally(after);
  if (was === undefined || is === undefined) return undefined;
  const thoughtSound = was.of - was.damaged;
  return { case: name, thoughtSound, found: Math.min(thoughtSound, Math.max(0, is.damaged - was.damaged)) };
};

const tally = ({
  units,
  counts,
}: Pick<Survey, 'units' | 'counts'>): { of: number; damaged: number } | undefined => {
  if (units !== undefined) {
    const all = units.flat();
    return { of: all.length, damaged: all.filter((state) => DAMAGED.includes(state)).length };
  }
  if (counts === undefined) return undefined;
  const { hole = 0, split = 0, lost = 0, missing = 0 } = counts;
  return { of: counts.of, damaged: hole + split + lost + missing };
};

/**
 * The share of hidden damage after what was found: log-odds normal about the shipped share's with the spread
 * `experience.unsure.hidden`; found follows a beta-binomial with the shipped strength.
 */
export const hiddenProposal = (
  all: readonly HiddenDamage[],
  figures: { readonly prior: Figures; readonly now: Figures },
): Proposal[] => {
  const opened = all.filter(({ thoughtSound }) => thoughtSound > 0);
  const n = opened.length;
  if (n < figures.now.number('experience.least_cases')) return [];
  const id = 'hours.hidden.share';
  const prior = figures.prior.number(id);
  const strength = figures.prior.number('hours.hidden.strength');
  const shareAt = (theta: number): number => 1 / (1 + Math.exp(-(Math.log(prior / (1 - prior)) + theta)));
  const posterior = linearPosterior(
    opened.map(({ thoughtSound: of, found }) => ({
      weights: [1],
      logLikelihood: (theta: number) => {
        const share = shareAt(theta);
        return Math.log(betaBinomial(of, share * strength, (1 - share) * strength)[found] ?? 0);
      },
    })),
    [figures.now.number('experience.unsure.hidden')],
  );
  const at = (share: number): number => threeDigits(shareAt(posterior.quantile(0, share)));
  return [
    {
      figure: id,
      unit: figures.prior.figure(id).unit,
      prior,
      now: figures.now.number(id),
      proposed: at(0.5),
      low: at(0.1),
      high: at(0.9),
      n,
      effectiveSize: posterior.effectiveSize,
      factor: at(0.5) / prior,
    },
  ];
};
