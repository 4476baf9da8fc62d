import type { QuiltCase } from '../casebook/model.ts';
import { rowName } from '../casebook/positions.ts';
import { type FindingDef, pathOf, type Vocabulary } from '../findings/vocabulary.ts';
import type { Scale } from '../statistics/agreement.ts';

/** One answer of one surveyor: what was judged, and how. */
export interface Grading {
  /** Id of the finding, such as `fragility`; `joins.open` for counts of joins. */
  readonly finding: string;
  readonly label: string;
  readonly scale: Scale;
  /** Where the answer stands in the case. */
  readonly path: readonly (string | number)[];
  /** What it was judged of, in words: empty for the quilt itself, else `unit B4`, `the brown print`. */
  readonly thing: string;
  /** As the case holds it. */
  readonly value: string | number | boolean;
  /** On the finding's own scale: the index of a grade or choice, 0 and 1 for no and yes, else the figure. */
  readonly rank: number;
  readonly def: FindingDef | undefined;
}

/** How far apart two answers of a kind are: by order, by proportion, or only the same or not. */
const SCALES: Readonly<Record<FindingDef['kind'], Scale>> = {
  grade: 'ordinal',
  choice: 'nominal',
  'yes/no': 'nominal',
  fraction: 'ratio',
  count: 'ratio',
  number: 'ratio',
  length: 'ratio',
  area: 'ratio',
  weight: 'ratio',
  money: 'ratio',
  years: 'ratio',
};

const scaleOf = (def: FindingDef): Scale => (def.ordered ? 'ordinal' : SCALES[def.kind]);

/** Told to every surveyor beforehand, or asked of the client: nothing two surveyors could judge differently. */
const GIVEN: ReadonlySet<string> = new Set(['construction', 'seen', 'opened', 'made_about', 'made_sure']);

const COUNTED: readonly {
  readonly group: 'joins' | 'counts';
  readonly names: Readonly<Record<string, string>>;
}[] = [
  {
    group: 'joins',
    names: {
      inspected: 'joins looked at',
      open: 'open joins',
      thread: 'joins open because thread broke',
      cloth: 'joins open because cloth tore',
      allowance: 'joins open because the seam allowance is gone',
    },
  },
  {
    group: 'counts',
    names: {
      of: 'units counted',
      worn: 'units worn thin',
      edge: 'units frayed at a seam',
      split: 'units slit',
      hole: 'units with a hole',
      lost: 'units lost',
      missing: 'units missing',
      stained: 'units stained',
      bled: 'units bled',
      repaired: 'units repaired before',
      flattened: 'units gone flat',
    },
  },
];

const at = (value: unknown, path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>(
    (here, name) => (typeof here === 'object' && here !== null ? Reflect.get(here, name) : undefined),
    value,
  );

const rankOf = (def: FindingDef | undefined, value: string | number | boolean): number => {
  if (typeof value === 'number') return value;
  if (typeof value === 'boolean') return value ? 1 : 0;
  const index = def?.options.findIndex((option) => option.value === value) ?? -1;
  return Math.max(0, index);
};

const isAnswer = (value: unknown): value is string | number | boolean =>
  typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';

/** Everything one survey of a case judges, in the order of the vocabulary. */
export const gradingsIn = (quiltCase: QuiltCase, vocabulary: Vocabulary): Grading[] => [
  ...ofQuilt(quiltCase, vocabulary),
  ...ofFamilies(quiltCase, vocabulary),
  ...ofUnits(quiltCase, vocabulary),
  ...ofCounts(quiltCase),
];

const ofQuilt = (quiltCase: QuiltCase, vocabulary: Vocabulary): Grading[] =>
  [...vocabulary.findings.values()].flatMap((def): Grading[] => {
    const path = pathOf(def);
    if (path === undefined || GIVEN.has(def.id) || path[0] === 'client') return [];
    const value = at(quiltCase, path);
    return isAnswer(value) ? [judged(def, path, '', value)] : [];
  });

const judged = (
  def: FindingDef,
  path: readonly (string | number)[],
  thing: string,
  value: string | number | boolean,
): Grading => ({
  finding: def.id,
  label: def.label,
  scale: scaleOf(def),
  path,
  thing,
  value,
  rank: rankOf(def, value),
  def,
});

const ofFamilies = ({ survey }: QuiltCase, vocabulary: Vocabulary): Grading[] =>
  Object.entries(survey.families ?? {}).flatMap(([letter, family]) =>
    [...vocabulary.family.values()].flatMap((def): Grading[] => {
      const path = ['survey', 'families', letter, def.id];
      const value = Reflect.get(family, def.id);
      const thing = family.name === undefined ? `fabric ${letter}` : `the ${family.name}`;
      return isAnswer(value) ? [judged({ ...def, id: `family.${def.id}` }, path, thing, value)] : [];
    }),
  );

const ofUnits = ({ survey }: QuiltCase, vocabulary: Vocabulary): Grading[] => {
  const def = vocabulary.unit.get('state');
  if (def === undefined) return [];
  return (survey.units ?? []).flatMap((row, r) =>
    row.flatMap((state, c): Grading[] =>
      state === 'unseen'
        ? []
        : [
            judged(
              { ...def, id: 'unit.state' },
              ['survey', 'units', r, c],
              `unit ${rowName(r)}${c + 1}`,
              state,
            ),
          ],
    ),
  );
};

const ofCounts = ({ survey }: QuiltCase): Grading[] =>
  COUNTED.flatMap(({ group, names }) =>
    Object.entries(names).flatMap(([name, label]): Grading[] => {
      const value = at(survey, [group, name]);
      if (typeof value !== 'number') return [];
      const finding = `${group}.${name}`;
      const path = ['survey', group, name];
      return [{ finding, label, scale: 'ratio', path, thing: '', value, rank: value, def: undefined }];
    }),
  );
