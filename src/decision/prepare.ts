import type { QuiltCase } from '../casebook/model.ts';
import type { Use } from '../casebook/scales.ts';
import { planFacts, type Wishes } from '../estimates/attributes.ts';
import { type EstimateContext, estimatePlans, type Work } from '../estimates/estimate.ts';
import type { Estimates } from '../estimates/model.ts';
import type { Fact, Facts } from '../findings/fact.ts';
import { candidatePlans } from '../plans/candidates.ts';
import type { Plan } from '../plans/model.ts';
import { lineFragility } from '../plans/stitched-cloth.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import type { DecisionContext } from './context.ts';
import { type Reading, takeReading } from './quilt-facts.ts';
import type { Option, Situation } from './situation.ts';

/** Plans of one quilt with what each would do, estimates worked out when asked for. */
export interface Laid {
  readonly plans: readonly Plan[];
  readonly estimates: readonly Estimates[];
}

/**
 * From a case to a situation: facts as found, what is done with each unit, facts as planned, the plans, and what
 * each of them would do. One direction, and each step reads the ones before it alone.
 */
export function prepare(quiltCase: QuiltCase, context: DecisionContext, treatedFor?: Use): Situation {
  const reading = takeReading(quiltCase, context, treatedFor);
  return situationOf(reading, layPlans(reading, context), context);
}

/** The candidate plans of a reading; `known` gives the work of plans that is worked out already, by their ids. */
export function layPlans(
  reading: Reading,
  { knowledge, practice }: DecisionContext,
  known?: ReadonlyMap<string, Work>,
): Laid {
  const { latest, quilt, found, actions, use } = reading;
  const { vocabulary, figures } = knowledge;
  const plans = candidatePlans(quilt, latest.quilt, actions, figures);
  const context: EstimateContext = {
    latest,
    use: use ?? UNKNOWN_USE,
    washing: washingOf(found, knowledge),
    directLight: answered(found['finding.direct_light']),
    ageYears: numeric(found['finding.age_years']),
    gradeOdds: vocabulary.family.get('fragility')?.options.map(({ likelihood }) => likelihood ?? 0),
    studio: practice.settings,
    figures,
  };
  return { plans, estimates: estimatePlans(plans, context, known) };
}

/** A reading with its plans, ready for the rules. */
export function situationOf(
  reading: Reading,
  { plans, estimates }: Laid,
  { knowledge: { figures }, day }: DecisionContext,
): Situation {
  const { latest, quilt, asked, found, planned, use, refusedUses, actions } = reading;
  const facts: Facts = { ...found, ...planned };
  const wishes: Wishes = {
    budget: latest.client.budget,
    wantedYears: latest.client.wanted_years,
    deadlineWeeks: numeric(found['finding.deadline_weeks']),
    queueWeeks: figures.number('studio.queue_weeks'),
    hoursPerWeek: figures.number('studio.hours_per_week'),
  };
  const withPlan = planFacts(facts, wishes);
  const options = plans.flatMap((plan, index): Option[] => {
    const estimate = estimates[index];
    if (estimate === undefined) return [];
    const own = withPlan(plan, estimate, { 'finding.line_fragility': lineFragility(plan) });
    return [{ plan, estimates: estimate, facts: own }];
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
