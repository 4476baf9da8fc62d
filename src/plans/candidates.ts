import type { Quilt } from '../casebook/model.ts';
import { TREATMENTS } from '../casebook/scales.ts';
import type { Figures } from '../figures/model.ts';
import type { SurveyedQuilt } from '../findings/surveyed.ts';
import type { Piecework } from '../piecework/model.ts';
import { oncePer, remembered } from '../quantities/once.ts';
import { gapAfter } from './gaps.ts';
import type { GroupAction, Plan, PlanGaps, PlanSpec } from './model.ts';
import { fittingBatting, ratedGap } from './ratings.ts';
import { resewnJoins } from './resewing.ts';
import { notBeaten } from './spacings.ts';
import { type FoundLayers, SPECS } from './treatments.ts';

/**
 * Every treatment worth comparing for one quilt: all treatments, backings, battings and hands, with the spacings
 * that no other spacing beats on both new holes and widest gap. Plans nobody may carry out are among them: it is
 * for the rules to rule them out, and to say why.
 */
export function candidatePlans(
  quilt: SurveyedQuilt,
  found: Quilt,
  actions: readonly GroupAction[],
  figures: Figures,
): Plan[] {
  return candidateSpecs(quilt.piecework, found).map((spec) => planOf(spec, quilt, found, actions, figures));
}

const layersOf = ({ batting, backing }: Quilt): FoundLayers => ({
  batting: batting?.kind ?? 'unknown',
  backing: backing?.kind ?? 'unknown',
});

/** They hang on the piecework and on what layers there are; one quilt is laid out many times when an answer is questioned. */
function candidateSpecs(piecework: Piecework, found: Quilt): readonly PlanSpec[] {
  const layers = layersOf(found);
  const key = JSON.stringify(layers);
  return remembered(specsOf(piecework), key, () =>
    notBeaten(
      piecework,
      remembered(doable, key, () => doableSpecs(layers)),
    ),
  );
}

const specsOf = oncePer((_: Piecework) => new Map<string, readonly PlanSpec[]>());

/** By the layers there are, which can be in fifteen ways. */
const doable = new Map<string, readonly PlanSpec[]>();

const doableSpecs = (layers: FoundLayers): readonly PlanSpec[] =>
  TREATMENTS.flatMap((treatment) => SPECS[treatment](layers)).filter(
    (spec) => spec.sewnBy === 'hand' || spec.joining === 'lines' || seamsInReach(spec, layers),
  );

/** Completes a specification with what it means on this quilt. */
export function planOf(
  bare: PlanSpec,
  quilt: SurveyedQuilt,
  found: Quilt,
  actions: readonly GroupAction[],
  figures: Figures,
): Plan {
  const { spec, gaps } = withGaps(bare, quilt, found, figures);
  return {
    ...spec,
    id: nameOf(bare),
    quilt,
    actions: spec.treatment === 'leave' ? untouched(actions) : actions,
    resewn: {
      joins: spec.treatment === 'leave' ? 0 : resewnJoins(quilt.joins, figures),
      by: seamsInReach(spec, layersOf(found)) ? spec.sewnBy : 'hand',
    },
    gaps,
    opens: opensQuilt(spec, found.batting?.kind !== 'none'),
  };
}

/** A specification with its new batting, where it has one, and the gaps that leaves. */
function withGaps(
  bare: PlanSpec,
  quilt: SurveyedQuilt,
  found: Quilt,
  figures: Figures,
): { spec: PlanSpec; gaps: PlanGaps } {
  const after = gapAfter(bare, quilt, found, figures);
  const spec: PlanSpec =
    bare.batting === 'replace' ? { ...bare, newBatting: fittingBatting(after, figures) } : bare;
  return { spec, gaps: { after, rated: ratedGap(spec, found, figures) } };
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

const nameOf = oncePer((spec: PlanSpec): string =>
  [
    spec.treatment,
    `backing ${spec.backing}`,
    `batting ${spec.batting}`,
    ...(spec.pattern === 'none' ? [] : [spec.pattern]),
    ...(spec.directions === 'both' ? [] : [spec.directions]),
    ...(spec.treatment === 'leave' ? [] : [`by ${spec.sewnBy}`]),
  ].join(', '),
);
