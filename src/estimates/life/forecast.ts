import { memoizeByKey } from '../../quantities/memo.ts';
import {
  type Counts,
  type Damage,
  damageAt,
  fill,
  type Hazards,
  partsOfDamage,
  perPart,
  roomFor,
} from './damage.ts';
import { type Clock, type Growths, growths } from './hazard.ts';
import type { PlannedQuilt, QuiltEvidence } from './model.ts';
import { type Likeness, type Posterior, posterior } from './posterior.ts';
import type { LifePrior } from './prior.ts';
import { type Term, termsOf } from './terms.ts';
import type { WearCurve } from './years.ts';
import { chanceUndue, type DueTable, dueTable } from './years.ts';

/** What all plans of one quilt are forecast from. */
export interface Outlook {
  readonly posterior: Posterior;
  readonly growths: Growths;
  readonly due: DueTable;
  readonly prior: LifePrior;
}

const CERTAIN = 1e-4;

/** Gauss and Hermite's three nodes of a normal variable: at ±√3 one in six, else the middle. */
const APART = Math.sqrt(3);
const OUTER = 1 / 6;

/** P(no repair is due yet) along the wear ahead, all likenesses of the quilt weighed together. */
export function wearCurve(plan: PlannedQuilt, outlook: Outlook): WearCurve {
  const { posterior, growths, due } = outlook;
  const { logFrom, logStep, at } = growths.grid;
  const points = at.length;
  const look = lookAt(plan, outlook);
  const survival = new Float64Array(points);
  const whole = new Float64Array(points + 1);
  let first = 0;
  for (const likeness of posterior.likenesses) {
    const { damaged } = look(likeness);
    const undue = (i: number): number => {
      const { share, spread } = damaged(i);
      const marks = share / due.mark;
      const stretch = Math.exp(APART * spread);
      const outer = chanceUndue(due, marks * stretch) + chanceUndue(due, marks / stretch);
      return (1 - 2 * OUTER) * chanceUndue(due, marks) + OUTER * outer;
    };
    // damage only grows, and likenesses beside each other are much alike: the first point at which a repair may be due
    while (first < points && undue(first) > 1 - CERTAIN) first++;
    while (first > 0 && undue(first - 1) <= 1 - CERTAIN) first--;
    whole[first] = (whole[first] ?? 0) + likeness.weight;
    for (let i = first; i < points; i++) {
      const left = undue(i);
      if (left < CERTAIN) break;
      survival[i] = (survival[i] ?? 0) + likeness.weight * left;
    }
  }
  let later = 0;
  for (let i = points; i >= 0; i--) {
    if (i < points) survival[i] = (survival[i] ?? 0) + later;
    later += whole[i] ?? 0;
  }
  return { logFrom, logStep, survival, now: undueNow(plan, outlook) };
}

/** A likeness of the quilt under a plan, until the next is looked at. */
interface Look {
  readonly terms: readonly Term[];
  readonly hazards: Hazards;
  /** The damage at a point of the grid: what wears, and what was left open, which tears on at its edges. */
  damaged(point: number): Damage;
}

function lookAt(
  plan: PlannedQuilt,
  { posterior, growths: { grid, old, fresh }, prior }: Omit<Outlook, 'due'>,
): (likeness: Likeness) => Look {
  const torn = grid.at.map((wear) => 1 + prior.openGrows * wear);
  const growth = { old: 0, fresh: 0, open: { cloth: 0, seams: 0 } };
  const damage: Damage = { share: 0, spread: 0 };
  // likenesses share the arrays that hold their grades
  const known = new Map<readonly number[], Pick<Look, 'terms' | 'hazards'>>();
  return (likeness) => {
    const { grades, clock } = likeness;
    const { terms, hazards } = memoizeByKey(known, grades, () => {
      const all = termsOf(plan, grades, prior);
      return { terms: [...all.cloth, ...all.seams], hazards: roomFor(all, grades.length, prior.power) };
    });
    fill(hazards, terms, likeness, { clock: posterior.clocks[clock] ?? NO_CLOCK, prior });
    const damaged = (i: number): Damage => {
      growth.old = old[clock]?.[i] ?? 0;
      growth.fresh = fresh[clock]?.[i] ?? 0;
      growth.open.cloth = Math.min(1, plan.open.cloth * (torn[i] ?? 1));
      growth.open.seams = Math.min(1, plan.open.seams * (torn[i] ?? 1));
      damageAt(hazards, growth, damage);
      return damage;
    };
    return { terms, hazards, damaged };
  };
}

const NO_CLOCK: Clock = { wear: 1, shape: 1 };

/** P(no repair is due on the first day); where what is left open is past the mark, it is due. */
function undueNow(plan: PlannedQuilt, { posterior, due, prior }: Outlook): number {
  const { cloth, seams } = plan.open;
  const { seamWeight } = termsOf(plan, posterior.likenesses[0]?.grades ?? [], prior);
  const raised = (1 - seamWeight) * cloth ** prior.power + seamWeight * seams ** prior.power;
  const marks = raised ** (1 / prior.power) / due.mark;
  return marks >= 1 ? 0 : chanceUndue(due, marks);
}

/** The name of what makes up most of the damage when `wear` more wear-years have passed, all likenesses weighed. */
export function mostDamaged(plan: PlannedQuilt, outlook: Outlook, wear: number): string {
  const { logFrom, logStep, at } = outlook.growths.grid;
  const nearest = Math.round((Math.log(wear) - logFrom) / logStep);
  const i = Math.max(0, Math.min(at.length - 1, nearest));
  const look = lookAt(plan, outlook);
  const made = new Map<readonly Term[], Float64Array>();
  for (const likeness of outlook.posterior.likenesses) {
    const { terms, hazards, damaged } = look(likeness);
    damaged(i);
    const sums = memoizeByKey(made, terms, () => new Float64Array(terms.length + 1));
    const parts = partsOfDamage(hazards);
    for (let j = 0; j < sums.length; j++) sums[j] = (sums[j] ?? 0) + likeness.weight * (parts[j] ?? 0);
  }
  const named = new Map<string, number>();
  for (const [terms, sums] of made)
    for (const [j, sum] of sums.entries()) {
      const name = terms[j]?.name ?? LEFT_OPEN;
      named.set(name, (named.get(name) ?? 0) + sum);
    }
  return [...named].reduce((most, one) => (one[1] > most[1] ? one : most), [LEFT_OPEN, -1] as const)[0];
}

const LEFT_OPEN = 'what is left open';

/** In how many parts the damage of a quilt is counted when it reaches the mark, on the mean over its likenesses. */
export function countedIn(found: PlannedQuilt, outlook: Omit<Outlook, 'due'>, counts: Counts): number {
  const look = lookAt(found, outlook);
  const last = outlook.growths.grid.at.length - 1;
  let mean = 0;
  let i = 0;
  for (const likeness of outlook.posterior.likenesses) {
    const { hazards, damaged } = look(likeness);
    while (i < last && damaged(i).share < outlook.prior.share) i++;
    while (i > 0 && damaged(i - 1).share >= outlook.prior.share) i--;
    damaged(i);
    mean += likeness.weight * perPart(hazards, counts);
  }
  return 1 / mean;
}

/** What is known of a quilt, weighed once for all its plans. `fineness` multiplies nodes; only tests need another than 1. */
export function outlookOf(evidence: QuiltEvidence, prior: LifePrior, fineness = 1): Outlook {
  const weighed = posterior(evidence, prior, fineness);
  const shared = { posterior: weighed, growths: growths(weighed.clocks, prior.newWork, fineness), prior };
  const counts = { units: evidence.units, joins: evidence.joins };
  return { ...shared, due: dueTable(pieces(counts), countedIn(asFound(evidence), shared, counts), prior) };
}

/** 1 / Σ weight² / pieces, top and seams each counting for half. */
const pieces = ({ units, joins }: Counts): number => (joins > 0 ? 1 / (0.25 / units + 0.25 / joins) : units);

/** The quilt as it was found, whole: one count of parts for all its plans, so that less damage is always a longer wait. */
const asFound = ({ kinds, joins }: QuiltEvidence): PlannedQuilt => ({
  parts: kinds.map(({ share }, kind) => ({ name: '', kind, share, stretch: [] })),
  fresh: 0,
  seams: { left: joins > 0 ? 1 : 0, resewn: 0, mixed: 0, edge: 0, fresh: 0 },
  held: 1,
  sides: [],
  open: { cloth: 0, seams: 0 },
});
