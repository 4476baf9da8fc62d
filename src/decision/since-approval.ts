import type { QuiltCase } from '../casebook/model.ts';
import type { Fact, Facts } from '../findings/fact.ts';
import type { FindingDef } from '../findings/vocabulary.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { SinceApproval } from './answer-model.ts';
import { type StudioPractice, takeReading } from './reading.ts';
import type { Option } from './situation.ts';

/** Says a finding's value in the studio's way. */
type Say = (def: FindingDef, fact: Fact) => string;

/**
 * What has changed since the client approved an estimate, and whether it needs new approval: hours or price risen by
 * more than the studio's mark. Null where nothing was approved, or no work is offered any more.
 */
export function sinceApproval(
  quiltCase: QuiltCase,
  recommended: Option | undefined,
  knowledge: Knowledge,
  studio: StudioPractice,
  say: Say,
): SinceApproval | null {
  const { approved } = quiltCase;
  if (approved === undefined || recommended === undefined) return null;
  const mark = knowledge.figures.number('studio.reapproval');
  const { hours, price } = recommended.estimates;
  const of = (
    was: number | undefined,
    now: number,
  ): { approved: number; now: number; rise: number } | null =>
    was === undefined || was <= 0
      ? null
      : { approved: was, now: tenth(now), rise: Math.round((now / was - 1) * 1000) / 1000 };
  const risen = { hours: of(approved.hours, hours.likely), price: of(approved.price, price.likely) };
  return {
    approved_on: approved.on ?? null,
    ...risen,
    needs_approval: [risen.hours, risen.price].some((each) => each !== null && each.rise > mark),
    mark,
    changed: changedFindings(quiltCase, knowledge, studio, say),
  };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** Findings that read otherwise now than when the estimate was approved: what later looks brought. */
function changedFindings(
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
  say: Say,
): SinceApproval['changed'] {
  const on = quiltCase.approved?.on;
  const earlier = quiltCase.resurveys.filter(
    (look) => on !== undefined && look.on !== undefined && look.on <= on,
  );
  if (earlier.length === quiltCase.resurveys.length) return [];
  const before: Facts = takeReading({ ...quiltCase, resurveys: earlier }, knowledge, studio).found;
  const after: Facts = takeReading(quiltCase, knowledge, studio).found;
  return [...knowledge.vocabulary.findings.values()].flatMap((def) => {
    const [was, is] = [before[`finding.${def.id}`], after[`finding.${def.id}`]];
    if (JSON.stringify(was) === JSON.stringify(is)) return [];
    return [{ finding: def.id, label: def.label, from: say(def, was), to: say(def, is) }];
  });
}
