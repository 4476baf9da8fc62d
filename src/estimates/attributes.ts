import type { Action } from '../casebook/scales.ts';
import { type Fact, type Facts, highest, isSpan, lowest } from '../findings/fact.ts';
import type { Kind } from '../findings/vocabulary.ts';
import type { Plan } from '../plans/model.ts';
import type { Estimator } from './estimate.ts';

/** What the client asks for, as far as a plan is held against it. */
export interface Wishes {
  readonly budget: number | undefined;
  readonly wantedYears: number | undefined;
  readonly deadlineWeeks: number | undefined;
  /** Weeks of work already waiting, and hours of paid work in a week. */
  readonly queueWeeks: number;
  readonly hoursPerWeek: number;
}

interface Attribute {
  readonly label: string;
  readonly value: Kind;
  readonly options?: readonly { readonly value: string; readonly label: string }[];
  read(plan: Plan, estimator: Estimator, wishes: Wishes): Fact;
}

const choice = (
  label: string,
  options: Readonly<Record<string, string>>,
  read: Attribute['read'],
): Attribute => ({
  label,
  value: 'choice',
  options: Object.entries(options).map(([value, label]) => ({ value, label })),
  read,
});

const known = (fact: Fact): fact is number | { lo: number; hi: number } =>
  typeof fact === 'number' || (fact !== undefined && isSpan(fact));

const does = ({ actions }: Plan, some: readonly Action[]): boolean =>
  actions.some(({ action, group }) => some.includes(action) && group.count > 0);

/** As much of a plan as its gaps rest on. */
type Gapped = Pick<Plan, 'batting' | 'gaps'>;

/** The gap as a share of what the batting bears; nothing to bear where there is no batting. */
function gapToRating({ batting, gaps }: Gapped): Fact {
  if (batting === 'none') return 0;
  if (!known(gaps.after) || !known(gaps.rated)) return undefined;
  const lo = lowest(gaps.after) / highest(gaps.rated);
  const hi = highest(gaps.after) / lowest(gaps.rated);
  return lo === hi ? lo : { lo, hi };
}

interface GapAttribute extends Attribute {
  read(plan: Gapped): Fact;
}

/** What rules may ask of a plan's gaps: they rest on its specification, on no estimate and no wish. */
const GAP_ATTRIBUTES: Readonly<Record<string, GapAttribute>> = {
  gap_after: { label: 'the widest gap between fastenings', value: 'length', read: (plan) => plan.gaps.after },
  rated_gap: { label: 'the gap the batting is rated for', value: 'length', read: (plan) => plan.gaps.rated },
  gap_to_rating: {
    label: 'the gap as a share of what the batting is rated for',
    value: 'fraction',
    read: gapToRating,
  },
};

/**
 * What rules may ask of a plan: its specification and its estimates. One entry an attribute; rules, help and
 * explanations all read this table. Lengths in inches, shares as fractions, money in the studio's currency.
 */
export const PLAN_ATTRIBUTES: Readonly<Record<string, Attribute>> = {
  treatment: choice(
    'the treatment',
    {
      leave: 'leaving it as it is',
      reassemble: 'putting it back together',
      backing: 'a backing held by tacks',
      tie: 'ties',
      lines: 'lines of quilting',
    },
    (plan) => plan.treatment,
  ),
  joining: choice(
    'the new joining of the layers',
    { none: 'none', tacks: 'tacks', ties: 'ties', lines: 'lines of quilting' },
    (plan) => plan.joining,
  ),
  backing: choice(
    'the backing',
    { keep: 'kept', add: 'added', replace: 'replaced', none: 'none' },
    (plan) => plan.backing,
  ),
  batting: choice(
    'the batting',
    { keep: 'kept', replace: 'replaced', none: 'left out' },
    (plan) => plan.batting,
  ),
  sewn_by: choice('how it is sewn', { hand: 'by hand', machine: 'by machine' }, (plan) => plan.sewnBy),
  pattern: choice(
    'where the new joining goes',
    {
      none: 'nowhere',
      'every crossing': 'at every crossing',
      'every second crossing': 'at every second crossing',
      'crossings and centres': 'at crossings and centres',
      'every seam': 'on every seam',
      'every second seam': 'on every second seam',
      'every seam and mid-unit': 'on every seam and through the middle of each unit',
    },
    (plan) => plan.pattern,
  ),
  directions: choice(
    'which way the lines run',
    { both: 'both ways', across: 'across', down: 'down' },
    (plan) => plan.directions,
  ),
  replaces: {
    label: 'whether units are taken out and made new',
    value: 'yes/no',
    read: (plan) => does(plan, ['replace']),
  },
  new_cloth: {
    label: 'whether new cloth is sewn to units',
    value: 'yes/no',
    read: (plan) => does(plan, ['replace', 'patch_over']),
  },
  opens: { label: 'whether the quilt is opened', value: 'yes/no', read: (plan) => plan.opens },
  ...GAP_ATTRIBUTES,
  'holes.new_old_cloth': {
    label: 'new holes in old cloth',
    value: 'count',
    read: (_, estimator) => {
      const { newOldFace, newOldAllowance, newOldBacking } = estimator.holes();
      return newOldFace + newOldAllowance + newOldBacking;
    },
  },
  'holes.new_old_face': {
    label: 'new holes in the face of old cloth',
    value: 'count',
    read: (_, estimator) => estimator.holes().newOldFace,
  },
  perforation: {
    label: 'share of a stitched line taken by needle holes',
    value: 'fraction',
    read: (_, estimator) => estimator.holes().perforation,
  },
  'life_years.low': {
    label: 'years to the next repair, low',
    value: 'years',
    read: (_, estimator) => estimator.life().low,
  },
  'life_years.middle': {
    label: 'years to the next repair, middle',
    value: 'years',
    read: (_, estimator) => estimator.life().middle,
  },
  'hours.likely': {
    label: 'hours of work, likely',
    value: 'number',
    read: (_, estimator) => estimator.hours().likely,
  },
  'price.likely': {
    label: 'the sum asked for',
    value: 'money',
    read: (_, estimator) => estimator.price().likely,
  },
  price_to_budget: {
    label: 'the sum asked for as a share of the budget',
    value: 'fraction',
    read: (_, estimator, { budget }) =>
      budget === undefined || budget <= 0 ? undefined : estimator.price().likely / budget,
  },
  years_to_wanted: {
    label: 'the middle of the life range as a share of the years wanted',
    value: 'fraction',
    read: (_, estimator, { wantedYears }) =>
      wantedYears === undefined || wantedYears <= 0 ? undefined : estimator.life().middle / wantedYears,
  },
  weeks_to_deadline: {
    label: 'the weeks it would take as a share of the weeks there are',
    value: 'fraction',
    read: (_, estimator, { deadlineWeeks, queueWeeks, hoursPerWeek }) =>
      deadlineWeeks === undefined || deadlineWeeks <= 0
        ? undefined
        : (queueWeeks + estimator.hours().likely / hoursPerWeek) / deadlineWeeks,
  },
};

/** What the getters below read; a symbol, so that no rule can name it. */
const OF = Symbol('of');
interface Described {
  readonly [OF]: { readonly plan: Plan; readonly estimator: Estimator };
}

/**
 * Everything rules may ask of the plans of one quilt, laid over its facts: gives for each plan its facts. What rests on an
 * estimate is worked out when it is read. Getters are made once for the quilt, because there are many plans.
 */
export function planFacts(
  under: Facts,
  wishes: Wishes,
): (plan: Plan, estimator: Estimator, own: Facts) => Facts {
  const shared: object = Object.create(under);
  for (const [id, attribute] of Object.entries(PLAN_ATTRIBUTES)) {
    Object.defineProperty(shared, `plan.${id}`, {
      get(this: Described) {
        return attribute.read(this[OF].plan, this[OF].estimator, wishes);
      },
    });
  }
  return (plan, estimator, own) => Object.assign(Object.create(shared), own, { [OF]: { plan, estimator } });
}
