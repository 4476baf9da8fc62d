import { GRADES } from '../casebook/scales.ts';
import { type Fact, highest, lowest, span } from '../findings/fact.ts';
import type { GroupAction, Plan } from './model.ts';

const WORN = GRADES.indexOf('worn');
const FRAGILE = GRADES.indexOf('fragile');

/** Cloth that is gone, or that new cloth covers or replaces, takes no stitch of the old kind. */
const bearsNewCloth = ({ action, group }: GroupAction): boolean =>
  ['replace', 'patch_over', 'remove'].includes(action) || group.state === 'missing';

const isSupported = ({ action }: GroupAction): boolean => action === 'support' || action === 'overlay';

/**
 * The worst grade of old cloth that the stitches of any plan that sews would enter, as an index into the grades. Fragile
 * or failing cloth with a support under it takes no stitch: the support is held at its edge.
 */
export const stitchedFragility = (quilt: Plan['quilt'], actions: Plan['actions']): Fact => {
  let lo = 0;
  let hi = 0;
  for (const each of actions) {
    if (each.group.count === 0 || bearsNewCloth(each)) continue;
    const family = each.group.family === undefined ? undefined : quilt.families[each.group.family];
    const grade = family?.fragility ?? anyFamily(quilt);
    const atLeast = each.group.state === 'worn' ? WORN : 0;
    const held = isSupported(each);
    const best = Math.max(lowest(grade), atLeast);
    const worst = Math.max(highest(grade), atLeast);
    if (each.group.least > 0 && !(held && best >= FRAGILE)) lo = Math.max(lo, best);
    hi = Math.max(hi, held ? Math.min(worst, FRAGILE - 1) : worst);
  }
  lo = Math.max(lo, surelyEntered(quilt, actions));
  return span(Math.min(lo, hi), Math.max(lo, hi));
};

/**
 * Where nobody noted which fabric each unit is: the worst grade among fabrics that cover more of the top than is
 * patched, replaced or supported, so that some of them are stitched whichever units they are.
 */
function surelyEntered(quilt: Plan['quilt'], actions: Plan['actions']): number {
  const unnoted = actions.filter(({ group }) => group.family === undefined || group.least < group.most);
  if (unnoted.length === 0) return 0;
  const spared = actions
    .filter((each) => bearsNewCloth(each) || isSupported(each))
    .reduce((sum, { group }) => sum + group.most, 0);
  const entered = Object.values(quilt.families).filter(({ share }) => lowest(share) > spared + 1e-9);
  return Math.max(0, ...entered.map(({ fragility }) => lowest(fragility)));
}

/** Where nobody noted which fabric a unit is, it may be any of them. */
function anyFamily({ families }: Plan['quilt']): { lo: number; hi: number } {
  const grades = Object.values(families).map((family) => family.fragility);
  if (grades.length === 0) return { lo: 0, hi: GRADES.length - 1 };
  return { lo: Math.min(...grades.map(lowest)), hi: Math.max(...grades.map(highest)) };
}
