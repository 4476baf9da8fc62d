import type { Figure, Figures } from '../figures/model.ts';

/** What experience says of one figure. Nothing changes until somebody accepts it. */
export interface Proposal {
  readonly figure: string;
  readonly unit: string;
  /** As shipped, or as last written by hand: what the experience was weighed against. */
  readonly prior: number;
  /** As it stands now: the prior, or an earlier proposal that was accepted. */
  readonly now: number;
  readonly proposed: number;
  /** 80 % range of the figure after the experience. */
  readonly low: number;
  readonly high: number;
  /** Cases that bear on it. */
  readonly n: number;
  readonly effectiveSize: number;
  /** Every value of the figure is multiplied by this; for a share, the one value is replaced. */
  readonly factor: number;
}

/** Figures are proposed to three digits: more would claim what a handful of quilts cannot tell. */
export const threeDigits = (value: number): number => Number(value.toPrecision(3));

/** From the logarithm of a factor to what it makes of a figure. */
export const proposalOf = (
  id: string,
  figures: { readonly prior: Figures; readonly now: Figures },
  log: { readonly middle: number; readonly low: number; readonly high: number },
  n: number,
  effectiveSize: number,
): Proposal => {
  const prior: Figure = figures.prior.figure(id);
  return {
    figure: id,
    unit: prior.unit,
    prior: prior.likely,
    now: figures.now.number(id),
    proposed: threeDigits(prior.likely * Math.exp(log.middle)),
    low: threeDigits(prior.likely * Math.exp(log.low)),
    high: threeDigits(prior.likely * Math.exp(log.high)),
    n,
    effectiveSize,
    factor: Math.exp(log.middle),
  };
};

/** Whether the figure as it stands already says so, to three digits. */
export const changes = ({ now, proposed }: Proposal): boolean => threeDigits(now) !== proposed;
