import { isDealtWith } from '../../casebook/hazards.ts';
import type { QuiltCase } from '../../casebook/model.ts';
import { type FormatStyle, sayValue } from '../../findings/say.ts';
import { type FindingDef, pathOf, type Vocabulary } from '../../findings/vocabulary.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import type { Rulebook } from '../../rulebook/model.ts';
import type { CaseValue, Variable } from './variable.ts';

/** How finely a person notes each kind of measure. */
const STEPS: Partial<Record<FindingDef['kind'], number>> = {
  fraction: 0.01,
  count: 1,
  number: 0.1,
  length: 0.125,
  area: 1,
  weight: 0.1,
  money: 10,
  years: 1,
};

/** Nobody asks what would change if these were otherwise: how the quilt was seen is a fact. */
const NEVER = new Set(['seen', 'opened', 'washing_practice', 'storage_only_ok', 'made_sure']);
/** What a person may suppose all the same: what is kept out of the search for changes. */
export const SUPPOSABLE: ReadonlySet<string> = new Set(['seen', 'made_sure']);
/** Worth finding out, but no second look changes them; nor does one make a quilt safe, so no finding on safety turns. */
const STATED = new Set(['monetary_value', 'stitches_per_inch', 'deadline_weeks']);

/**
 * A variable for every finding of the quilt that a case file holds, and for each finding of each fabric. `also` names
 * findings that have none otherwise.
 */
export function findingVariables(
  quiltCase: QuiltCase,
  { vocabulary, rulebook }: Pick<Knowledge, 'vocabulary' | 'rulebook'>,
  style: FormatStyle,
  also: ReadonlySet<string> = new Set(),
): Variable[] {
  const marks = thresholds(rulebook);
  const ofQuilt = [...vocabulary.findings.values()].flatMap((def) => {
    const path = pathOf(def);
    if (path === undefined || def.per !== 'quilt' || (NEVER.has(def.id) && !also.has(def.id))) return [];
    if (caseValueAt(quiltCase, path) === undefined && isNeedless(def, quiltCase, vocabulary)) return [];
    const own = marks.get(`finding.${def.id}`) ?? [];
    return [variableOf(def, { id: def.id, label: def.label, path, marks: own }, quiltCase, style)];
  });
  const families = Object.entries(quiltCase.survey.families ?? {});
  const ofFamilies = families.flatMap(([letter, family]) =>
    [...vocabulary.family.values()].flatMap((def) => {
      const path = pathOf(def)?.map((step) => (step === '*' ? letter : step));
      if (path === undefined || def.kind === 'fraction' || def.kind === 'count') return [];
      const label = `${def.label} (${family.name ?? `fabric ${letter}`})`;
      return [variableOf(def, { id: `${letter}.${def.id}`, label, path, marks: [] }, quiltCase, style)];
    }),
  );
  return [...ofQuilt, ...ofFamilies];
}

/** Whether what is told leaves nothing to find out: a backing that is not there has no grade. */
const isNeedless = (def: FindingDef, quiltCase: QuiltCase, vocabulary: Vocabulary): boolean =>
  def.needless.some(({ finding, is }) => {
    const other = vocabulary.findings.get(finding);
    const path = other && pathOf(other);
    return path !== undefined && caseValueAt(quiltCase, path) === is;
  });

/** A finding of the quilt, or of one fabric. */
interface Asked {
  readonly id: string;
  readonly label: string;
  readonly path: readonly string[];
  /** Figures at which rules change their mind. */
  readonly marks: readonly number[];
}

function variableOf(
  def: FindingDef,
  { id, label, path, marks }: Asked,
  quiltCase: QuiltCase,
  style: FormatStyle,
): Variable {
  const current = caseValueAt(quiltCase, path);
  const isYear = def.unit === 'year';
  const step = isYear ? 1 : STEPS[def.kind];
  return {
    id,
    label,
    who: def.group === 'wishes' ? 'client' : 're-check',
    told: def.who === 'client',
    safety: def.group === 'safety',
    current,
    cost: def.cost ?? 3,
    how: def.how,
    likely: def.likely.map(({ value, weight }) => ({ value: inCase(def, value), weight })),
    others: step === undefined ? others(def, current) : [],
    turns: !STATED.has(def.id) && def.group !== 'safety',
    scale: step === undefined ? undefined : { ...reach(def, current, isYear), step, marks },
    most: def.range?.max ?? Number.MAX_SAFE_INTEGER,
    say: (value) =>
      sayValue(def, def.ordered && typeof value === 'string' ? optionIndex(def, value) : value, style),
    set: (other, value) => withCaseValue(other, path, value),
  };
}

/** A second look halves or doubles a measure at most, and moves a year by a generation; nothing stays nothing. */
function reach(
  def: FindingDef,
  current: CaseValue | undefined,
  isYear: boolean,
): { min: number; max: number } {
  const { min, max } = def.range ?? { min: 0, max: Number.MAX_SAFE_INTEGER };
  if (typeof current !== 'number') return { min, max };
  const [least, most] = isYear ? [current - 20, current + 20] : [current / 2, current * 2];
  return { min: Math.max(min, least), max: Math.min(max, most) };
}

const optionIndex = (def: FindingDef, value: string): number =>
  def.options.findIndex((option) => option.value === value);

/** Facts hold ordered choices by index; case files hold them by name. */
const inCase = (def: FindingDef, value: CaseValue): CaseValue =>
  def.ordered && typeof value === 'number' ? (def.options[value]?.value ?? value) : value;

/**
 * Values a second look could bring: a grade or an ordered choice one step off, yes for no, any other choice. What
 * harms people or quilts is asked about, not supposed: where none was found, none is supposed here.
 */
function others(def: FindingDef, current: CaseValue | undefined): CaseValue[] {
  if (def.kind === 'yes/no')
    return current === undefined || (current === false && isHazard(def)) ? [] : [!current];
  if (current === undefined) return [];
  const names = def.options.map((option) => option.value);
  // What a thing is made of was seen, not weighed: an unordered choice is not taken for a slip.
  if (!def.ordered && def.group !== 'wishes') return [];
  if (!def.ordered)
    return names.filter((name) => name !== current && name !== 'unknown' && name !== 'infant_sleep');
  const index = names.indexOf(String(current));
  const near = [index - 1, ...(isHazard(def) ? [] : [index + 1])];
  return near.flatMap((each) => names[each] ?? []);
}

const isHazard = (def: FindingDef): boolean => def.group === 'safety' || def.group === 'worth';

/** The figures at which rules change their mind, by fact. */
function thresholds(rulebook: Rulebook): ReadonlyMap<string, readonly number[]> {
  const marks = new Map<string, number[]>();
  for (const { key, operand } of rulebook.rules.flatMap((rule) => rule.tests)) {
    const figures = (Array.isArray(operand) ? operand : [operand]).filter((each) => typeof each === 'number');
    marks.set(key, [...(marks.get(key) ?? []), ...figures]);
  }
  return marks;
}

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
const withCaseValue = (quiltCase: QuiltCase, path: readonly string[], value: CaseValue): QuiltCase =>
  // The path comes from the vocabulary and the value from its own choices, so the shape stays that of a case.
  withValue(quiltCase, path, value) as QuiltCase;

function caseValueAt(quiltCase: QuiltCase, path: readonly string[]): CaseValue | undefined {
  let here: unknown = quiltCase;
  for (const step of path) here = isTree(here) ? here[step] : undefined;
  return typeof here === 'number' || typeof here === 'string' || typeof here === 'boolean' ? here : undefined;
}

/** A case on its own: its latest looks and what was done about hazards merged in, so that a value set is the one that holds. */
export const standingAlone = (
  { treated = [], elsewhere: _, ...latest }: QuiltCase,
  opened: boolean,
): QuiltCase => ({
  ...latest,
  // What was tested for and found lifts nothing, and stays on record.
  treated: treated.filter((each) => !isDealtWith(each)),
  resurveys: [],
  survey: { ...latest.survey, findings: { ...latest.survey.findings, ...(opened ? { opened: true } : {}) } },
});
