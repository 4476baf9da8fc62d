import type { QuiltCase } from '../../casebook/model.ts';
import type { CaseValue } from './knob.ts';

type Tree = Readonly<Record<string, unknown>>;

const isTree = (value: unknown): value is Tree =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function withValue(tree: unknown, path: readonly string[], value: CaseValue): unknown {
  const [head, ...rest] = path;
  if (head === undefined) return value;
  const here = isTree(tree) ? tree : {};
  return { ...here, [head]: withValue(here[head], rest, value) };
}

/** The case with one value set at a path of the contract, everything else as it was. */
export const withCaseValue = (quiltCase: QuiltCase, path: readonly string[], value: CaseValue): QuiltCase =>
  // The path comes from the vocabulary and the value from its own choices, so the shape stays that of a case.
  withValue(quiltCase, path, value) as QuiltCase;

export function caseValueAt(quiltCase: QuiltCase, path: readonly string[]): CaseValue | undefined {
  let here: unknown = quiltCase;
  for (const step of path) here = isTree(here) ? here[step] : undefined;
  return typeof here === 'number' || typeof here === 'string' || typeof here === 'boolean' ? here : undefined;
}

/** A case on its own: its latest looks and what was done about hazards merged in, so that a value set is the one that holds. */
export const standingAlone = ({ treated: _, ...latest }: QuiltCase, opened: boolean): QuiltCase => ({
  ...latest,
  resurveys: [],
  survey: { ...latest.survey, findings: { ...latest.survey.findings, ...(opened ? { opened: true } : {}) } },
});
