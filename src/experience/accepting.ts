import type { Edit } from '../casebook/edit-case.ts';
import type { Source } from '../source/source.ts';
import { leafAt } from './prior-figures.ts';
import { type Proposal, threeDigits } from './proposal.ts';

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
