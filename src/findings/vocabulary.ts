import type { Evidence } from '../figures/model.ts';

/** What sort of value a finding takes. `grade` is the fragility scale; lengths, areas, weights and shares have units. */
export const KINDS = [
  'grade',
  'choice',
  'yes/no',
  'fraction',
  'count',
  'number',
  'length',
  'area',
  'weight',
  'money',
  'years',
] as const;
export type Kind = (typeof KINDS)[number];

/** What a finding is a finding of. */
export type Per = 'quilt' | 'plan' | 'family' | 'unit';

/** Who can know it: `client` can be asked, `photos` can be looked at, the rest needs the quilt or the workshop. */
export const KNOWERS = ['client', 'photos', 'in hand', 'studio'] as const;
export type Knower = (typeof KNOWERS)[number];

/** One choice, or one grade of the fragility scale. */
export interface Option {
  readonly value: string;
  /** In the words a client would read. */
  readonly label: string;
  /** Observable signs, by way of looking: `look`, `pinch`, `tug`, `needle` for grades. */
  readonly anchors: Readonly<Record<string, string>>;
  /** How likely it is where nothing is known, 0 to 1; undefined for derived findings. */
  readonly likelihood: number | undefined;
}

/** A value the finding could turn out to have, as facts hold it (see fact.ts), and how likely that is. */
export interface LikelyValue {
  readonly value: number | string | boolean;
  readonly weight: number;
}

/** What makes a finding needless: a filling that is not there cannot have moved. */
export interface Needless {
  readonly finding: string;
  readonly is: string | boolean;
  /** As facts hold it. */
  readonly gives: number | string | boolean | undefined;
}

/** One entry of rules/findings.yaml. Figures are in base units: inches, square inches, pounds, fractions of one. */
export interface FindingDef {
  readonly id: string;
  readonly per: Per;
  readonly label: string;
  /** Undefined where nobody is asked, because the finding is derived. */
  readonly question: string | undefined;
  readonly kind: Kind;
  /** True for grades, and for choices listed from harmless to worse; their facts are index numbers. */
  readonly ordered: boolean;
  /** Choices and grades only; empty otherwise. */
  readonly options: readonly Option[];
  readonly range: { readonly min: number; readonly max: number } | undefined;
  readonly unit: string | undefined;
  /** Path in the case file; `survey.findings` holds it under its own id; `derived` is never typed. */
  readonly at: string;
  /** Whether it also exists as planned, under `planned.`. */
  readonly planned: boolean;
  readonly how: string;
  readonly who: Knower | undefined;
  /** 1 a question … 5 the quilt must be opened; undefined where derived. */
  readonly cost: number | undefined;
  /** Weights add up to one. Empty where derived. */
  readonly likely: readonly LikelyValue[];
  readonly group: string;
  readonly order: number;
  /** The finding need not be asked for where any of these holds; `gives` is what follows where it is not stated. */
  readonly needless: readonly Needless[];
  readonly evidence: Evidence;
  readonly source: string;
}

/** A stretch of an interview, in the order of the file: hazards first. */
export interface FindingGroup {
  readonly id: string;
  readonly title: string;
}

/** Everything findings.yaml defines. Findings of the quilt and of a plan share one map; families and units have their own. */
export interface Vocabulary {
  readonly groups: readonly FindingGroup[];
  readonly findings: ReadonlyMap<string, FindingDef>;
  readonly family: ReadonlyMap<string, FindingDef>;
  readonly unit: ReadonlyMap<string, FindingDef>;
  /** The fragility scale, with its anchors. */
  readonly grades: readonly Option[];
  /** How cloth is tested, and when testing must stop. */
  readonly protocol: string;
  readonly stopRule: string;
}

/** Steps to the value in a case file, `*` standing for a family's letter; undefined where it is derived. */
export const pathOf = (def: FindingDef): readonly string[] | undefined => {
  if (def.at === 'derived') return undefined;
  return def.at === 'survey.findings' ? ['survey', 'findings', def.id] : def.at.split('.');
};

/** A named choice as facts hold it: the index where the finding is ordered, else the name; undefined if not a choice. */
export const factOfOption = (def: FindingDef, value: string): number | string | undefined => {
  const index = def.options.findIndex((option) => option.value === value);
  if (index < 0) return undefined;
  return def.ordered ? index : value;
};
