import type { Figure, Figures } from '../figures/model.ts';
import { readShare } from '../quantities/share.ts';
import type { Path, Source } from '../source/source.ts';
import { withReplaced } from './changed-figures.ts';

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
export const leafAt = (
  source: Source,
  id: string,
): { readonly path: Path; readonly leaf: Group } | undefined => {
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
