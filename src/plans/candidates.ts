import type { Quilt } from '../casebook/model.ts';
import { TREATMENTS } from '../casebook/scales.ts';
import type { Figures } from '../figures/model.ts';
import { boundsOf, type Fact, highest, isSpan, type Span, span } from '../findings/fact.ts';
import type { SurveyedQuilt } from '../findings/surveyed.ts';
import type { Piecework } from '../piecework/model.ts';
import { gapOf, stitchingOf } from '../piecework/patterns.ts';
import { memo } from '../quantities/memo.ts';
import type { GroupAction, Plan, PlanGaps, PlanSpec } from './model.ts';
import { resewnJoins } from './resewing.ts';
import { type FoundLayers, SPECS } from './treatments.ts';

/**
 * Every treatment worth comparing for one quilt: all treatments, backings, battings and hands, with the spacings
 * that no other spacing beats on both new holes and widest gap. Plans nobody may carry out are among them: it is
 * for the rules to rule them out, and to say why.
 */
export function candidatePlans(
  quilt: SurveyedQuilt,
  { batting, backing, joining }: Quilt,
  actions: readonly GroupAction[],
  figures: Figures,
): readonly Plan[] {
  return plansOf({ quilt, batting, backing, joining, actions, figures });
}

/** All that plans are made from. */
interface Ground extends FoundParts {
  readonly quilt: SurveyedQuilt;
  readonly actions: readonly GroupAction[];
  readonly figures: Figures;
}

/** What was found of the layers and of what holds them together. */
interface FoundParts {
  readonly batting: Quilt['batting'] | undefined;
  readonly backing: Quilt['backing'] | undefined;
  readonly joining: Quilt['joining'] | undefined;
}

// Without it the questions of three cases take 23 % more processor time.
const plansOf = memo(16, (ground: Ground): readonly Plan[] => {
  const battings = newBattings(ground.figures);
  return candidateSpecs(ground.quilt.piecework, layersOf(ground)).map((spec) =>
    planOf(spec, ground, battings),
  );
});

const layersOf = ({ batting, backing }: FoundParts): FoundLayers => ({
  batting: batting?.kind ?? 'unknown',
  backing: backing?.kind ?? 'unknown',
});

const candidateSpecs = (piecework: Piecework, layers: FoundLayers): readonly PlanSpec[] =>
  notBeaten(piecework, doableSpecs(layers));

const doableSpecs = (layers: FoundLayers): readonly PlanSpec[] =>
  TREATMENTS.flatMap((treatment) => SPECS[treatment](layers)).filter(
    (spec) => spec.sewnBy === 'hand' || spec.joining === 'lines' || seamsInReach(spec, layers),
  );

/** Completes a specification with what it means on this quilt. */
function planOf(bare: PlanSpec, ground: Ground, battings: readonly NewBatting[]): Plan {
  const { quilt, actions, figures } = ground;
  const { spec, gaps } = withGaps(bare, ground, battings);
  return {
    ...spec,
    id: nameOf(bare),
    quilt,
    actions: spec.treatment === 'leave' ? untouched(actions) : actions,
    resewn: {
      ...(spec.treatment === 'leave' ? { joins: 0 } : resewnJoins(quilt, spec, figures)),
      by: seamsInReach(spec, layersOf(ground)) ? spec.sewnBy : 'hand',
    },
    gaps,
    opens: opensQuilt(spec, ground.batting?.kind !== 'none'),
  };
}

/** A specification with its new batting, where it has one, and the gaps that leaves. */
function withGaps(
  bare: PlanSpec,
  ground: Ground,
  battings: readonly NewBatting[],
): { spec: PlanSpec; gaps: PlanGaps } {
  const fresh =
    bare.joining === 'none'
      ? undefined
      : gapOf(ground.quilt.piecework, bare.joining, bare.pattern, bare.directions);
  const after = gapAfter(bare, fresh, ground);
  const spec: PlanSpec =
    bare.batting === 'replace' ? { ...bare, newBatting: fittingBatting(after, battings) } : bare;
  return { spec, gaps: { after, rated: ratedGap(spec, ground), fresh } };
}

/**
 * Whether seams can be reached from inside. In a quilt that stays closed they are closed from the front, by hand:
 * no machine gets there.
 */
const seamsInReach = (spec: PlanSpec, { batting, backing }: FoundLayers): boolean =>
  opensQuilt(spec, batting !== 'none') || backing === 'none';

/** Whether backing or batting have to come off. */
export const opensQuilt = (spec: Pick<PlanSpec, 'backing' | 'batting'>, hadBatting: boolean): boolean =>
  spec.backing === 'replace' || (hadBatting && spec.batting !== 'keep');

const untouched = (actions: readonly GroupAction[]): GroupAction[] =>
  actions.map(({ group }) => ({ group, action: 'keep', rules: [] }));

const nameOf = (spec: PlanSpec): string =>
  [
    spec.treatment,
    `backing ${spec.backing}`,
    `batting ${spec.batting}`,
    ...(spec.pattern === 'none' ? [] : [spec.pattern]),
    ...(spec.directions === 'both' ? [] : [spec.directions]),
    ...(spec.treatment === 'leave' ? [] : [`by ${spec.sewnBy}`]),
  ].join(', ');

/**
 * The widest unfastened distance in inches once the plan is carried out: that of the new fastenings or of the old, the
 * closer of the two, because old quilting goes on holding wherever the quilt is not opened. Where nobody noted the old, it
 * may hold as close as can be.
 */
function gapAfter(spec: PlanSpec, fresh: number | undefined, ground: Ground): Fact {
  if (opensQuilt(spec, ground.batting?.kind !== 'none')) return fresh;
  const old = oldGap(ground);
  if (fresh === undefined) return old;
  const { lo, hi } = boundsOf(old ?? { lo: 0, hi: fresh });
  return span(Math.min(fresh, lo), Math.min(fresh, hi));
}

/**
 * The gap that the old fastenings leave: as found, where few enough are missing to be restored through their old holes;
 * else wider by as much as is missing, so that a half of them hold twice as far apart.
 */
function oldGap({ quilt, joining, figures }: Ground): number | Span | undefined {
  // Nothing but the edge holds the layers together.
  const edge = Math.min(quilt.size.width, quilt.size.height);
  if (joining?.kind === 'none') return edge;
  const { kind, gap, missing } = joining ?? {};
  if (kind === undefined || gap === undefined) return undefined;
  const held = Math.min(gap, edge);
  if (missing === undefined) return { lo: held, hi: edge };
  return missing <= figures.number('findings.intact_missing') ? held : Math.min(edge, gap / (1 - missing));
}

const NEW = 'plans.new_batting';
const OLD = 'plans.old_batting_rated_gap';

/** The greatest unfastened distance, in inches, that the plan's batting bears; where nobody noted which it is, that of any. */
function ratedGap(spec: PlanSpec, { batting, figures }: Ground): Fact {
  if (spec.batting === 'none') return undefined;
  if (spec.batting === 'replace' && spec.newBatting !== undefined)
    return figures.number(`${NEW}.${spec.newBatting}`);
  if (batting?.rated_gap !== undefined) return batting.rated_gap;
  const { kind = 'unknown' } = batting ?? {};
  if (kind !== 'unknown') return figures.number(`${OLD}.${kind}`);
  const all = figures.below(OLD).map((name) => figures.number(`${OLD}.${name}`));
  return span(Math.min(...all), Math.max(...all));
}

/** The new batting with the smallest rating that bears the gap; the strongest one where none does or the gap is unknown. */
function fittingBatting(gap: Fact, rated: readonly NewBatting[]): string | undefined {
  const need =
    typeof gap === 'number' || (gap !== undefined && isSpan(gap)) ? highest(gap) : Number.POSITIVE_INFINITY;
  return (rated.find(({ rating }) => rating >= need) ?? rated.at(-1))?.name;
}

/** New battings to choose from, the one with the smallest rating first. */
const newBattings = (figures: Figures): readonly NewBatting[] =>
  figures
    .below(NEW)
    .map((name) => ({ name, rating: figures.number(`${NEW}.${name}`) }))
    .sort((a, b) => a.rating - b.rating || (a.name < b.name ? -1 : 1));

interface NewBatting {
  readonly name: string;
  readonly rating: number;
}

/** What two spacings are compared on: how much is pierced, and how far apart the fastenings are. */
interface Cost {
  readonly pierced: number;
  readonly gap: number;
}

/**
 * Lines one way and lines both ways are two things to the rules, not two spacings of one: at the same distance one
 * way always pierces less, and no quilt would ever be held both ways.
 */
const sameButForSpacing = (spec: PlanSpec): string =>
  [spec.treatment, spec.backing, spec.batting, spec.sewnBy, spec.directions === 'both'].join('|');

const beats = (a: Cost, b: Cost): boolean =>
  a.pierced <= b.pierced && a.gap <= b.gap && (a.pierced < b.pierced || a.gap < b.gap);

/** Leaves out a spacing that another of the same plan beats on one count and equals or beats on the other. */
function notBeaten(piecework: Piecework, specs: readonly PlanSpec[]): PlanSpec[] {
  const costs = specs.map(({ joining, pattern, directions }): Cost => {
    if (joining === 'none') return { pierced: 0, gap: 0 };
    return {
      pierced: stitchingOf(piecework, joining, pattern, directions),
      gap: gapOf(piecework, joining, pattern, directions),
    };
  });
  const families = new Map<string, number[]>();
  for (const [index, spec] of specs.entries()) {
    const key = sameButForSpacing(spec);
    families.set(key, [...(families.get(key) ?? []), index]);
  }
  const kept: number[] = [];
  for (const members of families.values()) {
    for (const [rank, index] of members.entries()) {
      const mine = costs[index];
      const beaten = members.some((other, otherRank) => {
        const theirs = costs[other];
        if (other === index || mine === undefined || theirs === undefined) return false;
        const equal = mine.pierced === theirs.pierced && mine.gap === theirs.gap;
        return beats(theirs, mine) || (equal && otherRank < rank);
      });
      if (!beaten) kept.push(index);
    }
  }
  return kept.sort((a, b) => a - b).flatMap((index) => specs[index] ?? []);
}
