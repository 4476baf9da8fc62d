import type { Edit } from '../casebook/edit-case.ts';
import type { Figure, Figures } from '../figures/model.ts';
import { readShare } from '../quantities/measure.ts';
import type { Path, Source } from '../source/source.ts';

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
  { n, effectiveSize }: Pick<Proposal, 'n' | 'effectiveSize'>,
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

/**
 * The edit that writes a proposal into figures.yaml: the new value with evidence `studio experience`, how many cases,
 * the range and the day; the old wording goes to `was`. Undefined where the file has no such figure.
 */
export const acceptEdit = (source: Source, proposal: Proposal, day: string): Edit | undefined => {
  const found = leafAt(source, proposal.figure);
  if (found === undefined) return undefined;
  const { was, evidence: _evidence, source: _source, since: _since, ...kept } = found.leaf;
  const { was: _was, ...old } = found.leaf;
  const { n, low, high, effectiveSize } = proposal;
  return {
    path: found.path,
    value: {
      ...kept,
      ...amounts(found.leaf, proposal),
      evidence: 'studio experience',
      source: `${n} cases of this studio; 80 % range ${low} to ${high}, effective sample size ${Math.round(effectiveSize)}; before: ${proposal.prior}`,
      since: day,
      was: [...(Array.isArray(was) ? was : []), old],
    },
  };
};

/** New amounts in the figure's own manner of writing: a percentage stays one, a range keeps its proportions. */
const amounts = (
  leaf: Readonly<Record<string, unknown>>,
  { proposed, now }: Proposal,
): Record<string, unknown> => {
  const factor = proposed / now;
  const scaled = (raw: unknown): unknown => {
    if (typeof raw === 'number') return threeDigits(raw * factor);
    const [, figure] = /^\s*(\d+(?:\.\d+)?)\s*%\s*$/.exec(String(raw)) ?? [];
    return figure === undefined ? raw : `${threeDigits(Number(figure) * factor)} %`;
  };
  return Object.fromEntries(
    ['value', 'low', 'likely', 'high'].filter((key) => key in leaf).map((key) => [key, scaled(leaf[key])]),
  );
};

type Group = Readonly<Record<string, unknown>>;

const isGroup = (value: unknown): value is Group =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const numberOf = (raw: unknown): number | undefined =>
  typeof raw === 'number' ? raw : typeof raw === 'string' ? readShare(raw) : undefined;

/** What a figure read before experience changed it: the latest wording that is not itself studio experience. */
const wordedBefore = (leaf: Group): Group | undefined => {
  if (leaf.evidence !== 'studio experience' || !Array.isArray(leaf.was)) return undefined;
  return leaf.was.filter(isGroup).findLast((old) => old.evidence !== 'studio experience');
};

const isLeaf = (group: Group): boolean => 'value' in group || 'likely' in group;

/** A figure as the file has it, at its path. */
const leafAt = (source: Source, id: string): { readonly path: Path; readonly leaf: Group } | undefined => {
  const path = id.split('.');
  let here: unknown = source.value;
  for (const name of path) here = isGroup(here) ? here[name] : undefined;
  return isGroup(here) && isLeaf(here) ? { path, leaf: here } : undefined;
};

/**
 * Figures with everything learned taken back. Learning always begins from them and weighs all outcomes anew, so that no
 * quilt counts twice however often a proposal was accepted.
 */
export const priorFigures = (source: Source, figures: Figures): Figures => {
  const replaced = new Map<string, Figure>();
  const walk = (group: Group, path: readonly string[]): void => {
    for (const [name, child] of Object.entries(group)) {
      if (!isGroup(child)) continue;
      const id = [...path, name].join('.');
      if (!isLeaf(child)) {
        walk(child, [...path, name]);
        continue;
      }
      const before = wordedBefore(child);
      if (before === undefined) continue;
      const value = numberOf(before.value);
      const [low, likely, high] = [before.low, before.likely, before.high].map(numberOf);
      const amounts =
        value === undefined
          ? low === undefined || likely === undefined || high === undefined
            ? undefined
            : { low, likely, high }
          : { low: value, likely: value, high: value };
      if (amounts !== undefined) replaced.set(id, { ...figures.figure(id), ...amounts });
    }
  };
  if (isGroup(source.value)) walk(source.value, []);
  return withReplaced(figures, replaced);
};

/** The same names of figures, each looked up another way. */
const lookedUp = (figures: Figures, figure: (id: string) => Figure): Figures => ({
  figure,
  number: (id) => figure(id).likely,
  range: (id) => {
    const { low, likely, high } = figure(id);
    return { low, likely, high };
  },
  has: figures.has,
  below: figures.below,
});

/** The same figures with some of them multiplied. */
export const withFactors = (figures: Figures, factors: ReadonlyMap<string, number>): Figures =>
  lookedUp(figures, (id) => {
    const found = figures.figure(id);
    const factor = factors.get(id);
    if (factor === undefined) return found;
    return { ...found, low: found.low * factor, likely: found.likely * factor, high: found.high * factor };
  });

/** The same figures with some of them replaced. */
const withReplaced = (figures: Figures, replaced: ReadonlyMap<string, Figure>): Figures =>
  lookedUp(figures, (id) => replaced.get(id) ?? figures.figure(id));
