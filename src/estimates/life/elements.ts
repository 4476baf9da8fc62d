import type { Figures } from '../../figures/model.ts';
import type { SurveyedQuilt } from '../../findings/surveyed.ts';
import type { Plan } from '../../plans/model.ts';
import { oncePerPair } from '../../quantities/once.ts';
import type { LifeContext } from './context.ts';
import { atLeast, FAILING, mixed, WEAK, weakerOfTwo, withoutFailing } from './grades.ts';
import { seamEvidence, withTornJoins } from './join-evidence.ts';
import { plannedJoins } from './joins.ts';
import type { GradeWeights, LifeElement, LifeInput } from './model.ts';
import { type OldCloth, oldCloths, type Worked } from './old-cloth.ts';
import { pastWear } from './past-wear.ts';
import { elementWear, gapAlternatives, hasNewBacking, type Meets } from './plan-wear.ts';

/** All of a plan that bears on how its cloth and seams wear: plans alike in this wear alike. */
interface Wearing extends Worked {
  readonly joinsResewn: number;
  /** Whether its lines go through the old cloth and the old seams. */
  readonly lined: boolean;
  readonly newBacking: boolean;
  readonly perforation: number | undefined;
}

/**
 * A plan and a case as the life model sees them: each fabric's old cloth, the old seams left alone, the seams resewn
 * on old cloth and the seams between old cloth and new, each with its evidence and what it will meet.
 * Works out once what is alike in many plans of one quilt.
 */
export function lifeInputs(
  given: Omit<LifeContext, 'perforation'>,
  figures: Figures,
): (plan: Plan, perforation: LifeContext['perforation']) => LifeInput {
  const use = given.use === 'infant_sleep' ? 'storage' : given.use;
  const past = pastWear(given, figures);
  const rate = figures.figure(`life.rate.${use}`);
  const worked = oncePerPair((quilt: SurveyedQuilt, actions: Plan['actions']) => {
    const cloths = withTornJoins(oldCloths({ quilt, actions }, given, figures), { quilt, actions });
    const inputs = new Map<string, LifeInput>();
    return { ...countedCloths(cloths, figures), care: careAssumptions(given, cloths), inputs };
  });
  return (plan, perforation) => {
    const { quilt, actions } = plan;
    const { counted, assumptions, care, inputs } = worked(quilt, actions);
    const gaps = gapAlternatives(plan, figures);
    const wearing: Wearing = {
      quilt,
      actions,
      joinsResewn: plan.resewn.joins,
      lined: plan.joining === 'lines',
      newBacking: hasNewBacking(plan),
      perforation,
    };
    const key = `${wearing.joinsResewn} ${wearing.lined} ${wearing.newBacking} ${perforation} ${JSON.stringify(gaps)}`;
    const known = inputs.get(key);
    if (known !== undefined) return known;
    const input: LifeInput = {
      elements: elementsOf(counted, wearing, { ...given, use, perforation }, figures),
      wear: past.wear,
      ratePerYear: rate.likely,
      rateSpread: rate.spread ?? 0,
      alternatives: gaps.alternatives,
      use,
      ...(given.wantedYears === undefined ? {} : { wantedYears: given.wantedYears }),
      assumptions: [...assumptions, ...past.assumptions, ...gaps.assumptions, ...care],
    };
    inputs.set(key, input);
    return input;
  };
}

function elementsOf(
  cloths: readonly OldCloth[],
  plan: Wearing,
  context: LifeContext,
  figures: Figures,
): readonly LifeElement[] {
  const wear: Wear = (meets) => elementWear({ ...ONLY_ITSELF, ...meets }, context, figures);
  const old = [...clothElements(cloths, plan, wear), ...seamElements(cloths, plan, wear, figures)];
  if (old.some(({ gone }) => gone !== true)) return old;
  const units = Math.max(1, plan.quilt.total);
  return [...old, { name: 'the new cloth', grade: 0, units, wear: wear({}) }];
}

type Wear = (meets: Partial<Meets>) => GradeWeights;

const ONLY_ITSELF: Meets = {
  supported: false,
  stitched: false,
  strongBesideWeak: false,
  selfDestructing: false,
};

const isFailing = ({ chances }: OldCloth): boolean => (chances[FAILING] ?? 0) >= 1 - 1e-9;

/** Failing cloth too little to govern is left out and said so: it would leave nothing to forecast. */
function countedCloths(
  cloths: readonly OldCloth[],
  figures: Figures,
): { counted: readonly OldCloth[]; assumptions: string[] } {
  const mark = figures.number('findings.governing_area');
  const small = cloths.filter((cloth) => isFailing(cloth) && cloth.standing > 0 && cloth.standing < mark);
  return {
    counted: cloths.filter((cloth) => !small.includes(cloth)),
    assumptions: small.map(
      ({ name, standing }) =>
        `The years leave out failing cloth: ${name}, ${Math.max(1, Math.round(100 * standing))} % of the top, will go on shedding.`,
    ),
  };
}

function clothElements(cloths: readonly OldCloth[], plan: Wearing, wear: Wear): LifeElement[] {
  return cloths.map(({ name, chances, units, seen, failed, standing, held, selfDestructing }) => ({
    name,
    grade: chances,
    units,
    ...(seen > 0 ? { seen, failed } : {}),
    wear: wear({
      supported: held || plan.newBacking,
      stitched: plan.lined,
      selfDestructing: selfDestructing === true,
    }),
    ...(standing > 0 ? {} : { gone: true }),
  }));
}

function seamElements(
  cloths: readonly OldCloth[],
  plan: Wearing,
  wear: Wear,
  figures: Figures,
): LifeElement[] {
  const standing = cloths.filter((cloth) => cloth.standing > 0 && !isFailing(cloth));
  const joins = plannedJoins(plan, plan.joinsResewn);
  if (joins.total === 0 || standing.length === 0) return [];
  const cloth = withoutFailing(
    mixed(standing.map(({ standing: share, chances }) => ({ share, chances: withoutFailing(chances) }))),
  );
  const seam = weakerOfTwo(cloth);
  const strongBesideWeak =
    (joins.mixed / joins.total) * atLeast(cloth, WEAK) > figures.number('life.limit.strong_beside_weak');
  const supported = plan.newBacking || standing.every(({ held }) => held);
  const evidence = seamEvidence(plan.quilt.joins);
  const left: LifeElement = {
    name: 'the old seams left as they are',
    grade: seam,
    units: joins.total,
    ...evidence,
    wear: wear({ supported, stitched: plan.lined }),
    ...(joins.left > 0 ? {} : { gone: true }),
  };
  const resewn: LifeElement = {
    name: 'the resewn seams',
    grade: seam,
    units: Math.max(1, joins.resewn),
    wear: wear({ supported, stitched: true }),
  };
  const between: LifeElement = {
    name: 'the seams between old cloth and new',
    grade: cloth,
    units: Math.max(1, joins.mixed),
    wear: wear({ supported, stitched: true, strongBesideWeak }),
  };
  return [left, ...(joins.resewn > 0 ? [resewn] : []), ...(joins.mixed > 0 ? [between] : [])];
}

function careAssumptions(context: Omit<LifeContext, 'perforation'>, cloths: readonly OldCloth[]): string[] {
  const said: string[] = [];
  if (context.use === 'infant_sleep') said.push('Infant sleep is refused; the years are those in storage.');
  if (context.use === 'display') said.push('Shown for months at a time, with rests, in low light.');
  if (context.washing === undefined || context.washing === 'unknown') said.push('Washed by hand, if at all.');
  if (context.directLight === undefined) said.push('Kept out of direct window light.');
  for (const { name, selfDestructing, standing } of cloths) {
    if (selfDestructing === undefined && standing > 0) {
      said.push(`Nobody checked ${name} for a dye that destroys its cloth; it is taken as free of it.`);
    }
  }
  return said;
}
