import type { Figures } from '../../figures/model.ts';
import { isCovered } from '../../findings/old-cloth.ts';
import type { SurveyedJoins, SurveyedQuilt } from '../../findings/surveyed.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { oncePerPair } from '../../quantities/once.ts';
import {
  atLeast,
  FAILING,
  type GradeWeights,
  type LifeElement,
  type LifeInput,
  mixed,
  WEAK,
  weakerOfTwo,
  withoutFailing,
} from './model.ts';
import { type OldCloth, oldCloths, type Worked } from './old-cloth.ts';
import {
  elementWear,
  gapAlternatives,
  hasNewBacking,
  type LifeContext,
  type Meets,
  pastWear,
} from './plan-wear.ts';

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

/** How the joins of a quilt stand once a plan is carried out. Counts may be estimates where there is no map. */
interface PlannedJoins {
  readonly total: number;
  /** Between old cloth and new. */
  readonly mixed: number;
  /** Resewn with old cloth on both sides. */
  readonly resewn: number;
  /** Old cloth on both sides, old thread. */
  readonly left: number;
}

function plannedJoins({ quilt, actions }: Worked, joinsResewn: number): PlannedJoins {
  const { joins } = quilt;
  const total = Math.max(joins.total, joins.inspected ?? 0);
  const shares = sides(quilt, actions);
  const mixed = Math.round(total * shares.mixed);
  const old = Math.max(0, Math.round(total * shares.old));
  const resewn = Math.min(old, joinsResewn);
  return { total, mixed, resewn, left: old - resewn };
}

const isNew = ({ action }: GroupAction): boolean => action === 'replace' || action === 'patch_over';

/** Share of joins with one new side, and with two old ones: counted on the map, else as if pieces lay at random. */
const sides = oncePerPair(
  (quilt: SurveyedQuilt, actions: Plan['actions']): { mixed: number; old: number } => {
    const { joins } = quilt.piecework;
    const mapped = quilt.counting === 'units' && actions.every(({ group }) => group.where !== undefined);
    if (mapped && joins.length > 0) {
      const fresh = new Set(actions.filter(isNew).flatMap(({ group }) => group.where ?? []));
      const out = new Set(actions.filter(isCovered).flatMap(({ group }) => group.where ?? []));
      const mixed = joins.filter(
        ({ a, b }) => (fresh.has(a) && !out.has(b)) || (fresh.has(b) && !out.has(a)),
      ).length;
      const old = joins.filter(({ a, b }) => !out.has(a) && !out.has(b)).length;
      return { mixed: mixed / joins.length, old: old / joins.length };
    }
    const all = actions.reduce((sum, { group }) => sum + group.count, 0);
    if (all === 0) return { mixed: 0, old: 1 };
    const part = (some: readonly GroupAction[]): number =>
      some.reduce((sum, { group }) => sum + group.count, 0) / all;
    const kept = 1 - part(actions.filter(isCovered));
    return { mixed: 2 * part(actions.filter(isNew)) * kept, old: kept * kept };
  },
);

/** What the joins inspected say of the seams themselves: everything open that cloth did not open. */
function seamEvidence({ inspected, open, thread, cloth, allowance }: SurveyedJoins): {
  seen?: number;
  failed?: number;
} {
  if (inspected === undefined || inspected === 0) return {};
  const failed = open === undefined ? (thread ?? 0) + (allowance ?? 0) : open - (cloth ?? 0);
  if (open === undefined && thread === undefined) return {};
  return { seen: inspected, failed: Math.min(inspected, Math.max(0, failed)) };
}

/**
 * Adds to each cloth the joins that could have torn it and those that did. Inspected joins are shared out by area, torn
 * ones by position where both are known, and else to the weakest cloth there is.
 */
function withTornJoins(cloths: readonly OldCloth[], plan: Worked): readonly OldCloth[] {
  const { inspected, cloth: torn, openAt } = plan.quilt.joins;
  if (inspected === undefined || torn === undefined || cloths.length === 0) return cloths;
  const all = cloths.reduce((sum, { share }) => sum + share, 0);
  const weakest = weakestOf(cloths);
  const placed = openAt
    .filter(({ cause }) => cause === 'cloth')
    .map(({ a, b }) => weakestOf(cloths.filter(({ family }) => familiesAt(plan, [a, b]).includes(family))));
  const known = placed.filter((one) => one !== undefined);
  return cloths.map((one) => {
    const seen = Math.round((inspected * one.share) / all);
    const here = known.filter((other) => other === one).length;
    const failed = here + (one === weakest ? Math.max(0, torn - known.length) : 0);
    return { ...one, seen: one.seen + Math.max(seen, failed), failed: one.failed + failed };
  });
}

function familiesAt({ quilt }: Worked, positions: readonly string[]): readonly (string | undefined)[] {
  const groups = quilt.groups.filter(({ among }) => positions.some((at) => among?.includes(at)));
  return groups.map(({ family }) => family).filter((family) => family !== undefined);
}

const meanGrade = ({ chances }: OldCloth): number =>
  Object.entries(chances).reduce((sum, [grade, chance]) => sum + Number(grade) * chance, 0);

/** The worst grade, the larger share where two are alike. */
const weakestOf = (cloths: readonly OldCloth[]): OldCloth | undefined =>
  [...cloths].sort((a, b) => meanGrade(b) - meanGrade(a) || b.share - a.share)[0];
