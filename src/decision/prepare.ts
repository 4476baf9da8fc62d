import type { QuiltCase } from '../casebook/model.ts';
import { planFacts, type Wishes } from '../estimates/attributes.ts';
import { estimatePlans } from '../estimates/estimate.ts';
import type { Estimates } from '../estimates/model.ts';
import type { StudioSettings } from '../estimates/studio.ts';
import { foundFacts } from '../findings/as-found.ts';
import type { Fact, Facts } from '../findings/fact.ts';
import { latestLook } from '../findings/latest-look.ts';
import { plannedFacts } from '../findings/planned.ts';
import { USES, type Use } from '../findings/scales.ts';
import { surveyQuilt } from '../findings/survey-quilt.ts';
import { candidatePlans } from '../plans/candidates.ts';
import type { Plan } from '../plans/model.ts';
import { lineFragility } from '../plans/stitched-cloth.ts';
import { judgeRule } from '../rulebook/fast.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';
import { chooseActions } from './actions.ts';
import type { Option, Situation } from './situation.ts';

/** How a studio works: its prices, and whether it washes by museum or by studio practice. */
export interface StudioPractice {
  readonly settings: StudioSettings;
  readonly washing: 'museum' | 'studio';
}

/**
 * From a case to a situation: facts as found, what is done with each unit, facts as planned, the plans, and what
 * each of them would do. One direction, and each step reads the ones before it alone.
 */
export function prepare(
  quiltCase: QuiltCase,
  knowledge: Knowledge,
  studio: StudioPractice,
  asOf: string,
): Situation {
  const { vocabulary, figures, rulebook } = knowledge;
  const { case: latest } = latestLook(quiltCase);
  const quilt = surveyQuilt(quiltCase, figures);
  const asked: Facts = {
    ...foundFacts(quiltCase, quilt, vocabulary, figures),
    'finding.washing_practice': studio.washing,
  };
  const refusedUses = refused(asked, knowledge);
  const wanted = latest.client.intended_use;
  const use = wanted !== undefined && refusedUses.includes(wanted) ? 'storage' : wanted;
  const found: Facts = { ...asked, 'finding.intended_use': useFact(use, asked) };
  const actions = chooseActions(quilt, latest.quilt.must_stay ?? [], rulebook, found);
  const planned = plannedFacts(quilt, actions, vocabulary, figures);
  const plans = candidatePlans(quilt, latest.quilt, actions, figures);
  const estimates = estimatePlans(plans, {
    latest,
    use: use ?? UNKNOWN_USE,
    washing: washingOf(found, knowledge),
    directLight: found['finding.direct_light'] === true ? true : undefined,
    ageYears: numeric(found['finding.age_years']),
    gradeOdds: vocabulary.family.get('fragility')?.options.map(({ likelihood }) => likelihood ?? 0),
    studio: studio.settings,
    figures,
  });

  const facts: Facts = {
    ...found,
    ...planned,
    'finding.value_over_price': valueOverPrice(plans, estimates, found),
  };
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
  return { quiltCase: latest, asOf, quilt, asked, facts, use, refusedUses, actions, options };
}

/** Years are told for this use where nobody said which is intended; the answer says so. */
const UNKNOWN_USE: Use = 'guest_bed';

function washingOf(facts: Facts, { vocabulary }: Knowledge): 'none' | 'hand' | 'machine' | 'unknown' {
  const fact = facts['finding.washing_planned'];
  const option = vocabulary.findings.get('washing_planned')?.options[numeric(fact) ?? -1];
  return WASHING.find((way) => way === option?.value) ?? 'unknown';
}

const WASHING = ['none', 'hand', 'machine'] as const;

const numeric = (fact: Fact): number | undefined => (typeof fact === 'number' ? fact : undefined);

/** Uses that a rule refuses on what is known. */
function refused(asked: Facts, { rulebook }: Knowledge): Use[] {
  const uses = rulebook.rules
    .filter((rule) => rule.effects.refuseUse !== undefined && judgeRule(rule, asked) === true)
    .map((rule) => rule.effects.refuseUse);
  return USES.filter((use) => uses.includes(use));
}

const useFact = (use: Use | undefined, asked: Facts): Fact =>
  typeof asked['finding.intended_use'] === 'number' && use !== undefined ? USES.indexOf(use) : use;

/** Value against the cheapest plan that does any work: what a rule on worth compares. */
function valueOverPrice(plans: readonly Plan[], estimates: readonly Estimates[], facts: Facts): Fact {
  const value = numeric(facts['finding.monetary_value']);
  if (value === undefined) return undefined;
  const prices = plans.flatMap((plan, index) =>
    plan.treatment === 'leave' ? [] : (estimates[index]?.price.likely ?? []),
  );
  const least = Math.min(...prices);
  return Number.isFinite(least) && least > 0 ? value / least : undefined;
}
