import { EVIDENCE, type Evidence, type Figure, isFigureSet } from '../figures/model.ts';
import type { FindingDef } from '../findings/vocabulary.ts';
import type { Knowledge } from './knowledge.ts';

/** One source as the files name it, address and all, and everything that rests on it. */
export interface CitedSource {
  readonly evidence: Evidence;
  /** Nobody looked it up when it was written down. */
  readonly from_memory: boolean;
  readonly source: string;
  /** Sorted names. */
  readonly rules: readonly string[];
  readonly findings: readonly string[];
  readonly figures: readonly string[];
}

type Citing = 'rules' | 'findings' | 'figures';

/** Every source that a rule, a finding or a figure rests on, once: the firmest kind first, then by the alphabet. */
export function sourcesOf({ rulebook, vocabulary, figures }: Knowledge): CitedSource[] {
  if (!isFigureSet(figures)) throw new Error('these figures cannot be listed');
  const cited = new Map<string, Record<Citing, string[]> & Pick<CitedSource, 'evidence' | 'source'>>();
  const add = (citing: Citing, name: string, { evidence, source }: Pick<Figure, 'evidence' | 'source'>) => {
    const key = `${EVIDENCE.indexOf(evidence)} ${source}`;
    const entry = cited.get(key) ?? { evidence, source, rules: [], findings: [], figures: [] };
    entry[citing].push(name);
    cited.set(key, entry);
  };
  for (const rule of rulebook.rules) add('rules', rule.id, rule);
  for (const finding of findingsOf(vocabulary)) add('findings', nameOf(finding), finding);
  for (const figure of figures.list) add('figures', figure.id, figure);
  return [...cited.values()]
    .map(({ evidence, source, ...by }) => ({
      evidence,
      from_memory: /\bfrom memory\b/.test(source),
      source,
      rules: by.rules.toSorted(),
      findings: by.findings.toSorted(),
      figures: by.figures.toSorted(),
    }))
    .toSorted((a, b) => rank(a) - rank(b) || compare(a.source, b.source));
}

const findingsOf = ({ findings, family, unit }: Knowledge['vocabulary']): FindingDef[] => [
  ...findings.values(),
  ...family.values(),
  ...unit.values(),
];

/** A finding of a fabric or of a unit is told from one of the quilt by what it is about. */
const nameOf = ({ id, per }: FindingDef): string =>
  per === 'family' || per === 'unit' ? `${per}.${id}` : id;

/** What was seen comes before what is remembered, within each kind. */
const rank = ({ evidence, from_memory }: CitedSource): number =>
  2 * EVIDENCE.indexOf(evidence) + (from_memory ? 1 : 0);

/** By letters whatever their case and whatever the language of the machine; what differs by case alone keeps an order. */
const compare = (a: string, b: string): number => {
  const [first, second] = [a.toLowerCase(), b.toLowerCase()];
  if (first !== second) return first < second ? -1 : 1;
  return a < b ? -1 : a > b ? 1 : 0;
};
