import { PLAN_ATTRIBUTES } from '../estimates/attributes.ts';
import type { FindingDef, Kind, Vocabulary } from '../findings/vocabulary.ts';
import type { SubjectKind } from './model.ts';

/** Something a condition can speak of: a finding, the quilt as planned, the plan itself, a unit or its family. */
export interface Subject {
  readonly kind: SubjectKind;
  readonly id: string;
  /** In a practitioner's words, lower case: "share of the top that is lost". */
  readonly label: string;
  readonly value: Kind;
  /** Choices and grades: the words allowed, in their order. */
  readonly options: readonly { readonly value: string; readonly label: string }[];
  /** Whether the order of the options means something, so that "at least" makes sense. */
  readonly ordered: boolean;
  readonly range: { readonly min?: number; readonly max?: number } | undefined;
  /** Its value depends on the plan looked at. */
  readonly perPlan: boolean;
}

/** Every subject there is, by kind and id: built from the vocabulary and the plan's attributes. */
export interface Subjects {
  find(kind: SubjectKind, id: string): Subject | undefined;
  ids(kind: SubjectKind): readonly string[];
}

export const SUBJECT_KINDS: readonly SubjectKind[] = ['finding', 'planned', 'plan', 'unit', 'family'];

function subjectsOf(list: readonly Subject[]): Subjects {
  const byKey = new Map(list.map((subject) => [`${subject.kind}.${subject.id}`, subject]));
  return {
    find: (kind, id) => byKey.get(`${kind}.${id}`),
    ids: (kind) => list.filter((subject) => subject.kind === kind).map((subject) => subject.id),
  };
}

/** Numbers, measures and ordered choices can be compared with "at least" and its kin. */
export const isOrdered = (subject: Subject): boolean =>
  subject.value === 'choice' || subject.value === 'grade' ? subject.ordered : subject.value !== 'yes/no';

/** Everything rules can speak of: the vocabulary's findings, found and planned, units, families, and the plan's attributes. */
export function subjectsOfVocabulary(vocabulary: Vocabulary): Subjects {
  const findings = [...vocabulary.findings.values()];
  return subjectsOf([
    ...findings.map((def) => subject('finding', def)),
    ...findings.filter((def) => def.planned).map((def) => subject('planned', def)),
    ...[...vocabulary.unit.values()].map((def) => subject('unit', def)),
    ...[...vocabulary.family.values()].map((def) => subject('family', def)),
    ...Object.entries(PLAN_ATTRIBUTES).map(
      ([id, { label, value, options = [] }]): Subject => ({
        kind: 'plan',
        id,
        label,
        value,
        options,
        ordered: false,
        range: undefined,
        perPlan: true,
      }),
    ),
  ]);
}

const subject = (kind: SubjectKind, def: FindingDef): Subject => ({
  kind,
  id: def.id,
  label: def.label,
  value: def.kind,
  options: def.options,
  ordered: def.ordered || def.kind === 'grade',
  range: def.range,
  perPlan: def.per === 'plan',
});
