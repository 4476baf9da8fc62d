import { PLAN_ATTRIBUTES } from '../estimates/attributes.ts';
import type { FindingDef, Vocabulary } from '../findings/vocabulary.ts';
import type { SubjectKind } from './model.ts';
import { type Subject, type Subjects, subjectsOf } from './subjects.ts';

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
