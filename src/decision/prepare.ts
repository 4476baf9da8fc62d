import type { QuiltCase } from '../casebook/model.ts';
import type { Use } from '../casebook/scales.ts';
import { planFacts } from '../estimates/attributes.ts';
import { estimatorsOf } from '../estimates/estimate.ts';
import type { Fact, Facts } from '../findings/fact.ts';
import { candidatePlans } from '../plans/candidates.ts';
import { stitchedFragility } from '../plans/stitched-cloth.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { DecisionContext } from './context.ts';
import { deriveFacts, type QuiltFacts } from './quilt-facts.ts';
import type { Option, Situation } from './situation.ts';

/**
 * From a case to a situation: facts as found, what is done with each unit, facts as planned, the plans, and who
 * estimates what each of them would do. One direction, and each step reads the ones before it alone.
 */
export const prepare = (quiltCase: QuiltCase, context: DecisionContext): Situation =>
  situationOf(deriveFacts(quiltCase, context), context);

/** A reading with its plans, ready for the rules. */
export function situationOf(reading: QuiltFacts, { knowledge, practice, day }: DecisionContext): Situation {
  const { latest, quilt, asked, found, planned, use, refusedUses, actions } = reading;
  const { vocabulary, figures } = knowledge;
  const plans = candidatePlans(quilt, latest.quilt, actions, figures);
  const estimators = estimatorsOf(plans, {
    latest,
    use: use ?? UNKNOWN_USE,
    washing: washingOf(found, knowledge),
    directLight: answered(found['finding.direct_light']),
    ageYears: numeric(found['finding.age_years']),
    gradeOdds: vocabulary.family.get('fragility')?.options.map(({ likelihood }) => likelihood ?? 0),
    studio: practice.settings,
    figures,
  });
  const facts: Facts = { ...found, ...planned };
  const withPlan = planFacts(facts, {
    budget: latest.client.budget,
    wantedYears: latest.client.wanted_years,
    deadlineWeeks: numeric(found['finding.deadline_weeks']),
    queueWeeks: figures.number('studio.queue_weeks'),
    hoursPerWeek: figures.number('studio.hours_per_week'),
  });
  const entered = stitchedFragility(quilt, actions);
  const options = plans.flatMap((plan, index): Option[] => {
    const estimator = estimators[index];
    if (estimator === undefined) return [];
    const line = plan.treatment === 'leave' ? 0 : entered;
    return [{ plan, estimator, facts: withPlan(plan, estimator, { 'finding.line_fragility': line }) }];
  });
  return { quiltCase: latest, asOf: day, quilt, asked, found, facts, use, refusedUses, actions, options };
}

/** Years are told for this use where nobody said which is intended; the answer says so. */
const UNKNOWN_USE: Use = 'guest_bed';

function washingOf(facts: Facts, { vocabulary }: Knowledge): 'none' | 'hand' | 'machine' | 'unknown' {
  const fact = facts['finding.washing_planned'];
  const option = vocabulary.findings.get('washing_planned')?.options[numeric(fact) ?? -1];
  return WASHING.find((way) => way === option?.value) ?? 'unknown';
}

const WASHING = ['none', 'hand', 'machine'] as const;

const answered = (fact: Fact): boolean | undefined => (typeof fact === 'boolean' ? fact : undefined);

const numeric = (fact: Fact): number | undefined => (typeof fact === 'number' ? fact : undefined);
