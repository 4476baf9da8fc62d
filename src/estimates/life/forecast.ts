import { memoizeByKey } from '../../quantities/memo.ts';
import {
  type Counts,
  type Damage,
  damageAt,
  fill,
  type Growth,
  type Hazards,
  partsOfDamage,
  perPart,
  roomFor,
} from './damage.ts';
import { chanceUndue, type DueTable, dueTable } from './due.ts';
import { type Clock, type Growths, growths } from './hazard.ts';
import type { PlannedQuilt, QuiltEvidence } from './model.ts';
import { type Likeness, type Posterior, posterior } from './posterior.ts';
import type { LifePrior } from './prior.ts';
import { type Term, type Terms, termsOf } from './terms.ts';
import type { WearCurve } from './years.ts';

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
  const damage: Damage = { share: 0, spread: 0 };
  let first = 0;
  for (const likeness of posterior.likenesses) {
    const { hazards, growth } = look(likeness);
    const undue = (i: number): number => {
      damageAt(hazards, growth[i] ?? NOTHING, damage);
      const marks = damage.share / due.mark;
      const stretch = Math.exp(APART * damage.spread);
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

/** A likeness of the quilt under a plan: its terms, their hazards (until the next is looked at), and how they grow. */
interface Look {
  readonly terms: Terms;
  readonly hazards: Hazards;
  readonly growth: readonly Growth[];
}

function lookAt(
  plan: PlannedQuilt,
  { posterior, growths, prior }: Omit<Outlook, 'due'>,
): (likeness: Likeness) => Look {
  const growthOf = growthsOf(plan, growths, prior);
  // likenesses share the arrays that hold their grades
  const known = new Map<
    readonly number[],
    { readonly terms: Terms; readonly hazards: Hazards; readonly all: readonly Term[] }
  >();
  return (likeness) => {
    const { grades, clock } = likeness;
    const { terms, hazards, all } = memoizeByKey(known, grades, () => {
      const terms = termsOf(plan, grades, prior);
      return {
        terms,
        hazards: roomFor(terms, grades.length, prior.power),
        all: [...terms.cloth, ...terms.seams],
      };
    });
    fill(hazards, all, likeness, { clock: posterior.clocks[clock] ?? NO_CLOCK, prior });
    return { terms, hazards, growth: growthOf(clock) };
  };
}

const NO_CLOCK: Clock = { wear: 1, shape: 1 };
const NOTHING: Growth = { old: 0, fresh: 0, open: { cloth: 0, seams: 0 } };

/** Growth along the grid, clock by clock: of what wears, and of what was left open, which tears on at its edges. */
function growthsOf(
  { open: { cloth, seams } }: PlannedQuilt,
  { grid, old, fresh }: Growths,
  { openGrows }: LifePrior,
): (clock: number) => readonly Growth[] {
  const open = Array.from(grid.at, (wear) => ({
    cloth: Math.min(1, cloth * (1 + openGrows * wear)),
    seams: Math.min(1, seams * (1 + openGrows * wear)),
  }));
  const known = new Map<number, readonly Growth[]>();
  return (clock) =>
    memoizeByKey(known, clock, () =>
      open.map((each, i) => ({ old: old[clock]?.[i] ?? 0, fresh: fresh[clock]?.[i] ?? 0, open: each })),
    );
}

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
  const sums = new Map<string, number>();
  for (const likeness of outlook.posterior.likenesses) {
    const { terms, hazards, growth } = look(likeness);
    const names = [...terms.cloth, ...terms.seams].map(({ name }) => name);
    for (const [j, part] of partsOfDamage(hazards, growth[i] ?? NOTHING).entries()) {
      const name = names[j] ?? LEFT_OPEN;
      sums.set(name, (sums.get(name) ?? 0) + likeness.weight * part);
    }
  }
  return [...sums].reduce((most, one) => (one[1] > most[1] ? one : most), [LEFT_OPEN, -1] as const)[0];
}

const LEFT_OPEN = 'what is left open';

/** In how many parts the damage of a quilt is counted when it reaches the mark, on the mean over its likenesses. */
export function countedIn(found: PlannedQuilt, outlook: Omit<Outlook, 'due'>, counts: Counts): number {
  const look = lookAt(found, outlook);
  const damage: Damage = { share: 0, spread: 0 };
  let mean = 0;
  let i = 0;
  for (const likeness of outlook.posterior.likenesses) {
    const { hazards, growth } = look(likeness);
    const share = (point: number): number => {
      damageAt(hazards, growth[point] ?? NOTHING, damage);
      return damage.share;
    };
    while (i < growth.length - 1 && share(i) < outlook.prior.share) i++;
    while (i > 0 && share(i - 1) >= outlook.prior.share) i--;
    mean += likeness.weight * perPart(hazards, growth[i] ?? NOTHING, counts);
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
