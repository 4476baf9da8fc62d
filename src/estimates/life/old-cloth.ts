import type { Figures } from '../../figures/model.ts';
import { highest, lowest, type Span } from '../../findings/fact.ts';
import { isCovered, isGone } from '../../findings/old-cloth.ts';
import type { SurveyedQuilt } from '../../findings/surveyed.ts';
import type { GroupAction, Plan } from '../../plans/model.ts';
import { FAILING, type GradeWeights, gradeChances, mixed } from './model.ts';
import type { LifeContext } from './plan-wear.ts';

/** Old cloth that wears as one: a fabric family, or all of the top where losses were not noted fabric by fabric. */
export interface OldCloth {
  readonly name: string;
  /** Letter of its family; undefined for cloth of no known family. */
  readonly family: string | undefined;
  readonly chances: GradeWeights;
  /** Share of the top as made, and what of it still stands once the plan is carried out. */
  readonly share: number;
  readonly standing: number;
  readonly units: number;
  readonly seen: number;
  readonly failed: number;
  /** Whether everything of it that stands is held by a support or an overlay of its own. */
  readonly held: boolean;
  readonly selfDestructing: boolean | undefined;
}

const middle = (share: number | Span): number => (lowest(share) + highest(share)) / 2;

/** A quilt and what is done with its units, whatever else a plan does. */
export type Worked = Pick<Plan, 'quilt' | 'actions'>;

/** Every old cloth of the quilt, gone or not: what is gone still tells how worn the rest must be. */
export function oldCloths(
  plan: Worked,
  { gradeOdds }: Pick<LifeContext, 'gradeOdds'>,
  figures: Figures,
): readonly OldCloth[] {
  const { families } = plan.quilt;
  const letters = Object.keys(families).sort();
  const known = letters.map((letter) => {
    const family = families[letter];
    const chances = gradeChances(family?.fragility ?? { lo: 0, hi: FAILING }, gradeOdds);
    const name = family === undefined || family.name === letter ? `fabric ${letter}` : `the ${family.name}`;
    return {
      letter,
      name,
      chances,
      share: middle(family?.share ?? 0),
      selfDestructing: family?.selfDestructing,
    };
  });
  const strangers = plan.actions.filter(({ group }) => group.family === undefined);
  const lostByNobody = strangers.some(({ group }) => group.state === 'lost' && group.count > 0);
  if (known.length === 0 || (lostByNobody && known.length > 1)) {
    const chances = known.length === 0 ? gradeChances({ lo: 0, hi: FAILING }, gradeOdds) : mixed(known);
    const selfDestructing = known.length > 0 && known.every((family) => family.selfDestructing === true);
    return [
      {
        name: 'the old cloth',
        family: undefined,
        chances,
        selfDestructing,
        ...counted(plan.actions, plan, 1),
      },
    ];
  }
  const sole = known.length === 1 && (known[0]?.share ?? 0) > 1 - figures.number('findings.governing_area');
  const ofFamily = known.map(({ letter, name, chances, share, selfDestructing }) => {
    const actions = sole ? plan.actions : plan.actions.filter(({ group }) => group.family === letter);
    return { name, family: letter, chances, selfDestructing, ...counted(actions, plan, share) };
  });
  const rest = 1 - known.reduce((sum, { share }) => sum + share, 0);
  if (sole || rest < figures.number('findings.governing_area')) return ofFamily;
  return [
    ...ofFamily,
    {
      name: 'the cloth nobody graded',
      family: undefined,
      chances: gradeChances({ lo: 0, hi: FAILING }, gradeOdds),
      selfDestructing: undefined,
      ...counted(strangers, plan, rest),
    },
  ];
}

/** A fabric known by its share alone lies in many blocks, so what fails of it one by one is its pieces. */
const piecesOf = ({ total, counting, piecework }: SurveyedQuilt): number =>
  counting === 'units' ? total * (piecework.piecesPerUnit ?? 1) : total;

function counted(
  actions: readonly GroupAction[],
  { quilt }: Worked,
  share: number,
): Pick<OldCloth, 'share' | 'standing' | 'units' | 'seen' | 'failed' | 'held'> {
  const count = (some: readonly GroupAction[]): number =>
    some.reduce((sum, { group }) => sum + group.count, 0);
  const gone = actions.filter(({ group }) => isGone(group));
  const looked = actions.filter(({ group }) => group.state !== 'unseen');
  const standing = actions.filter((one) => !isCovered(one) && !isGone(one.group));
  const made = count(actions);
  // a family known only by its losses was counted through: the rest of it is whole
  const lossesOnly = looked.length === gone.length && gone.length > 0;
  return {
    share,
    standing: made > 0 ? (share * count(standing)) / made : share,
    units: Math.max(1, made > 0 ? made : Math.round(share * piecesOf(quilt))),
    seen: lossesOnly ? made : count(looked),
    failed: count(gone),
    held: standing.length > 0 && standing.every(({ action }) => action === 'support' || action === 'overlay'),
  };
}
