import type { QuiltCase } from '../casebook/model.ts';
import type { Fact, Facts } from '../findings/fact.ts';
import type { FindingDef, Vocabulary } from '../findings/vocabulary.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Reason, SinceApproval } from './answer-model.ts';
import { agreedOption } from './choice.ts';
import type { Settled } from './outcome.ts';
import { reasonsMissing } from './reasons.ts';

/** Says a finding's value in the studio's way. */
type Say = (def: FindingDef, fact: Fact) => string;

/** The case as it was known when its estimate was approved; undefined where nothing was approved, or looked at since. */
export function whenApproved(quiltCase: QuiltCase): QuiltCase | undefined {
  const { approved, ...unapproved } = quiltCase;
  if (approved === undefined) return undefined;
  const { on } = approved;
  const { resurveys, elsewhere = [] } = quiltCase;
  const isKnown = (look: { readonly on?: string }): boolean =>
    on !== undefined && look.on !== undefined && look.on <= on;
  if (resurveys.every(isKnown) && elsewhere.every(isKnown)) return undefined;
  return { ...unapproved, resurveys: resurveys.filter(isKnown), elsewhere: elsewhere.filter(isKnown) };
}

/** A settled case with the reasons for its answer. */
interface Reasoned {
  readonly settled: Settled;
  readonly reasons: readonly Reason[];
}

/**
 * What has changed since the client approved an estimate and why, and whether it needs new approval: hours or price
 * risen by more than the studio's mark. `then` is the case as it was known at the approval, settled by the same rules;
 * undefined where nobody has looked since. Null where nothing was approved.
 */
export function sinceApproval(
  now: Reasoned,
  then: Reasoned | undefined,
  { figures, vocabulary }: Knowledge,
  say: Say,
): SinceApproval | null {
  const { approved } = now.settled.asGiven;
  if (approved === undefined) return null;
  const mark = figures.number('studio.reapproval');
  const agreed = agreedOption(now.settled)?.option;
  const risen = {
    hours: riseOf(approved.hours, agreed?.estimator.hours().likely),
    price: riseOf(approved.price, agreed?.estimator.price().likely),
  };
  const { settled, reasons } = then ?? now;
  const { standing, treatment } = settled.outcome;
  return {
    approved_on: approved.on ?? null,
    as_approved: { standing, treatment },
    ...risen,
    needs_approval: [risen.hours, risen.price].some((each) => each !== null && each.rise > mark),
    mark,
    changed: changedFindings(settled.situation.found, now.settled.situation.found, vocabulary, say),
    gained: reasonsMissing(now.reasons, reasons),
    lost: reasonsMissing(reasons, now.reasons),
  };
}

function riseOf(was: number | undefined, is: number | undefined): SinceApproval['hours'] {
  if (was === undefined || was <= 0 || is === undefined) return null;
  return { approved: was, now: tenth(is), rise: Math.round((is / was - 1) * 1000) / 1000 };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** Findings that read otherwise now than when the estimate was approved: what later looks brought. */
const changedFindings = (
  before: Facts,
  after: Facts,
  { findings }: Vocabulary,
  say: Say,
): SinceApproval['changed'] =>
  [...findings.values()].flatMap((def) => {
    const [was, is] = [before[`finding.${def.id}`], after[`finding.${def.id}`]];
    if (JSON.stringify(was) === JSON.stringify(is)) return [];
    return [{ finding: def.id, label: def.label, from: say(def, was), to: say(def, is) }];
  });
