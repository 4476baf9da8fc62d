import type { QuiltCase } from '../../casebook/model.ts';
import { type Action, GRADES, type Grade, type UnitState, type Use } from '../../casebook/scales.ts';
import type { Figures } from '../../figures/model.ts';
import { clothIn, isCovered, isGone } from '../../findings/old-cloth.ts';
import type { SurveyedQuilt } from '../../findings/surveyed.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { memoizeByPair } from '../../quantities/memo.ts';
import { type Fabric, fabricsIn, joinsOf } from './fabrics.ts';
import {
  type ClothPart,
  FAILING,
  FRAGILE,
  type PlannedQuilt,
  type SeamShares,
  type SidePart,
  WEAK,
} from './model.ts';

/** What a plan meets that lies outside it. */
export interface Meeting {
  readonly use: Use;
  readonly quilt: Pick<QuiltCase['quilt'], 'binding' | 'backing'>;
  /** Keys of the kinds of cloth, in the order of the evidence. */
  readonly order: readonly string[];
  readonly figures: Figures;
}

/** A plan as the forecast sees it. `perforation`: the highest share of a stitched line taken by holes. */
export function plannedQuilt(plan: Plan, perforation: number, meeting: Meeting): PlannedQuilt {
  const { quilt, actions } = plan;
  const { cover, seams } = coverOf(quilt, actions);
  const joins = joinsOf(quilt.joins);
  const resewn = joins === 0 ? 0 : Math.min(seams.old, plan.resewn.joins / joins);
  return {
    parts: clothParts(cover, { ...meeting, plan, perforation }),
    fresh: cover.fresh,
    seams: { left: seams.old - resewn, resewn, mixed: seams.mixed, edge: seams.edge, fresh: seams.fresh },
    held: heldBy(plan, meeting.figures),
    sides: sideParts(plan, meeting),
    open: { cloth: cover.open, seams: openSeams(plan, joins) },
  };
}

/** What becomes of the top: shares of it. */
interface Cover {
  readonly old: readonly { readonly fabric: Fabric; readonly share: number; readonly held: boolean }[];
  readonly fresh: number;
  /** Damage that is left unmended. */
  readonly open: number;
}

type Shares = Omit<SeamShares, 'left' | 'resewn'> & { readonly old: number };

const HOLDS: ReadonlySet<Action> = new Set(['support', 'overlay']);
const LEAVES: ReadonlySet<Action> = new Set(['keep', 'restuff']);
const OPEN: ReadonlySet<UnitState> = new Set(['lost', 'missing', 'hole', 'split']);

const isNew = ({ action }: GroupAction): boolean => action === 'replace' || action === 'patch_over';
const isOut = (one: GroupAction): boolean => isCovered(one) && !isNew(one);
const isLeftOpen = ({ action, group }: GroupAction): boolean => LEAVES.has(action) && OPEN.has(group.state);
const isLeftGone = (one: GroupAction): boolean => !isCovered(one) && isGone(one.group);

/** Once for all plans of one top. */
const coverOf = memoizeByPair(
  (quilt: SurveyedQuilt, actions: Plan['actions']): { readonly cover: Cover; readonly seams: Shares } => {
    const fabrics = fabricsIn(quilt);
    const cloth = clothIn(actions) as readonly GroupAction[];
    const share = (some: readonly GroupAction[]): number =>
      some.reduce((sum, { group }) => sum + group.share, 0);
    const present = cloth.filter((one) => !isCovered(one) && !isGone(one.group));
    const fresh = share(cloth.filter(isNew));
    const all = share(present) + fresh;
    const old = [...fabrics.values()].flatMap((fabric) => {
      const own = present.filter(({ group }) => group.family === fabric.letter);
      const held = own.filter(({ action }) => HOLDS.has(action));
      return [
        { fabric, share: share(held) / all, held: true },
        { fabric, share: (share(own) - share(held)) / all, held: false },
      ].filter((part) => part.share > 1e-9);
    });
    const open = share(cloth.filter(isLeftOpen)) / Math.max(1e-9, share(cloth.filter((one) => !isOut(one))));
    return { cover: { old, fresh: all > 0 ? fresh / all : 1, open }, seams: seamShares(quilt, actions) };
  },
);

/** Joins by what lies on their two sides: counted on the map, else as if pieces lay at random. They add up to 1. */
function seamShares(quilt: SurveyedQuilt, actions: Plan['actions']): Shares {
  const { joins } = quilt.piecework;
  if (joinsOf(quilt.joins) === 0) return { old: 0, mixed: 0, edge: 0, fresh: 0 };
  const mapped = quilt.counting === 'units' && actions.every(({ group }) => group.where !== undefined);
  const counts = mapped && joins.length > 0 ? onTheMap(joins, actions) : atRandom(actions);
  const all = counts.old + counts.mixed + counts.edge + counts.fresh;
  if (!(all > 0)) return { old: 1, mixed: 0, edge: 0, fresh: 0 };
  return {
    old: counts.old / all,
    mixed: counts.mixed / all,
    edge: counts.edge / all,
    fresh: counts.fresh / all,
  };
}

function onTheMap(joins: SurveyedQuilt['piecework']['joins'], actions: Plan['actions']): Shares {
  const places = (test: (one: GroupAction) => boolean): ReadonlySet<string> =>
    new Set(actions.filter(test).flatMap(({ group }) => group.where ?? []));
  const [fresh, gone, out] = [places(isNew), places(isLeftGone), places(isOut)];
  const counts = { old: 0, mixed: 0, edge: 0, fresh: 0 };
  for (const { a, b } of joins) {
    const sides = [a, b];
    if (sides.some((at) => out.has(at)) || sides.every((at) => gone.has(at))) continue;
    const some = (set: ReadonlySet<string>): boolean => sides.some((at) => set.has(at));
    if (sides.every((at) => fresh.has(at) || gone.has(at))) counts.fresh++;
    else if (some(fresh)) counts.mixed++;
    else if (some(gone)) counts.edge++;
    else counts.old++;
  }
  return counts;
}

function atRandom(actions: Plan['actions']): Shares {
  const count = (some: readonly GroupAction[]): number =>
    some.reduce((sum, { group }) => sum + group.count, 0);
  const all = count(actions);
  if (all === 0) return { old: 1, mixed: 0, edge: 0, fresh: 0 };
  const [fresh, gone, out] = [isNew, isLeftGone, isOut].map((test) => count(actions.filter(test)) / all) as [
    number,
    number,
    number,
  ];
  const old = 1 - fresh - gone - out;
  return { old: old * old, mixed: 2 * fresh * old, edge: 2 * gone * old, fresh: fresh * (fresh + 2 * gone) };
}

export const hasNewBacking = ({ backing }: Plan): boolean => backing === 'add' || backing === 'replace';

interface Working extends Meeting {
  readonly plan: Plan;
  readonly perforation: number;
}

/** Cloth that wears alike and meets the same is one part, by however many names. */
function clothParts({ old }: Cover, working: Working): readonly ClothPart[] {
  const parts = new Map<
    string,
    { readonly fabrics: Set<string>; share: number; readonly held: boolean; kind: number; destroys: boolean }
  >();
  for (const { fabric, share, held } of old) {
    const supported = held || hasNewBacking(working.plan);
    const key = `${fabric.kind} ${supported}`;
    const part = parts.get(key) ?? {
      fabrics: new Set<string>(),
      share: 0,
      held: supported,
      kind: working.order.indexOf(fabric.kind),
      destroys: fabric.selfDestructing === true,
    };
    part.fabrics.add(fabric.name);
    part.share += share;
    parts.set(key, part);
  }
  return [...parts.values()].map(({ fabrics, share, held, kind, destroys }) => ({
    name: inWords([...fabrics]),
    kind,
    share,
    stretch: stretches(held, destroys, working),
  }));
}

const NAMED = 2;

function inWords(names: readonly string[]): string {
  if (names.length <= NAMED) return names.join(' and ');
  return `${names[0]} and ${names.length - 1} fabrics like it`;
}

/** What multiplies the life of cloth, by its grade. */
function stretches(held: boolean, destroys: boolean, { use, plan, perforation, figures }: Working): number[] {
  const times = (id: string): number => figures.number(`life.times.${id}`);
  const support = times('full_support');
  const pierced = plan.joining === 'lines' && perforation > figures.number('life.limit.perforation');
  const own = (destroys ? times('self_destructing_dye') : 1) * (pierced ? times('perforation') : 1);
  return GRADES.map((_, grade) => {
    if (grade < WEAK) return own;
    // some lives already take a full support for granted: there it is its absence that counts
    const contained = figures.has(`life.support_contained.${GRADES[Math.min(grade, FRAGILE)]}.${use}`);
    return own * (contained ? (held ? 1 : 1 / support) : held ? support : 1);
  });
}

/** What is left of the load on the seams' thread beside new joining. */
function heldBy({ joining, pattern, directions }: Plan, figures: Figures): number {
  const held = (id: string): number => Math.min(1, figures.number(`life.held.${id}`));
  if (joining === 'none') return 1;
  if (joining !== 'lines') return held(joining);
  const everySeam = pattern === 'every seam' || pattern === 'every seam and mid-unit';
  return held(everySeam && directions === 'both' ? 'lines' : 'lines_on_half');
}

/** Binding and old backing, where they were graded. A new backing takes the place of both. */
function sideParts(plan: Plan, { quilt: { binding, backing }, figures }: Meeting): readonly SidePart[] {
  const fresh = hasNewBacking(plan);
  const side = (name: string, grade: Grade | undefined, id: string, gone: boolean): SidePart[] =>
    grade === undefined
      ? []
      : [
          {
            name,
            weight: figures.number(`life.counts.${id}`),
            grade: GRADES.indexOf(grade),
            fresh: gone,
          },
        ];
  return [
    ...side('the binding', binding?.fragility, 'binding', fresh),
    ...side('the old backing', backing?.fragility, 'backing', fresh || plan.backing === 'none'),
  ];
}

/** Share of the joins that is open and stays so: those found open, less those sewn again. */
function openSeams({ quilt, resewn, treatment }: Plan, joins: number): number {
  const { open, inspected, thread, cloth, allowance } = quilt.joins;
  if (joins === 0 || inspected === undefined || inspected === 0) return 0;
  const found = Math.max(open ?? 0, (thread ?? 0) + (cloth ?? 0) + (allowance ?? 0));
  if (treatment !== 'leave') return Math.max(0, Math.min(1, found / joins - resewn.joins / joins));
  return Math.min(1, found / inspected);
}

/** Sentences on cloth that is failing, or was not checked for what destroys it. */
export function clothAssumptions(quilt: SurveyedQuilt, actions: Plan['actions']): readonly string[] {
  const { old } = coverOf(quilt, actions).cover;
  return [...new Set(old.map(({ fabric }) => fabric))].flatMap(({ name, fragility, selfDestructing }) => [
    ...(fragility === FAILING
      ? [`Failing cloth (${name}) is counted as fragile; it may give way when next handled.`]
      : []),
    ...(selfDestructing === undefined
      ? [`Nobody checked ${name} for a dye that destroys its cloth; it is taken as free of it.`]
      : []),
  ]);
}
