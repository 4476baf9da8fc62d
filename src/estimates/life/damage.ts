import { type Clock, DUE, growth, passed } from './hazard.ts';
import type { PlannedQuilt } from './model.ts';
import type { Likeness } from './posterior.ts';
import type { LifePrior } from './prior.ts';
import type { Term, Terms } from './terms.ts';

/**
 * The terms of a planned quilt for one likeness of it, cloth first. The hazard of each from now is
 * old·G(t) + min(worn·G(t), fresh·N(t)), where G is how the hazard already passed has grown and N the hazard of new
 * work, which never does worse than the old would.
 */
export interface Hazards {
  readonly cloths: number;
  readonly weight: Float64Array;
  readonly old: Float64Array;
  readonly worn: Float64Array;
  readonly fresh: Float64Array;
  /** Which earlier term has cloth of the same life, itself where none has; and how far its hazard grows over that life. */
  readonly alike: Int16Array;
  readonly grown: Float64Array;
  /** Share of each that gives way, as last worked out, and what of them was open then. */
  readonly share: Float64Array;
  readonly open: { cloth: number; seams: number };
  /** Kind of cloth of each term, -1 for none, and by how much the kind's own spread spreads the term's hazard. */
  readonly kind: Int16Array;
  readonly own: Float64Array;
  readonly kinds: number;
  readonly moved: Float64Array;
  readonly seamsMoved: Float64Array;
  readonly seamWeight: number;
  readonly power: number;
}

/** Room for the hazards of a list of terms, filled again for each likeness. */
export function roomFor({ cloth, seams, seamWeight }: Terms, kinds: number, power: number): Hazards {
  const all = [...cloth, ...seams];
  const each = (): Float64Array => new Float64Array(all.length);
  return {
    cloths: cloth.length,
    weight: Float64Array.from(all, ({ weight }) => weight),
    old: each(),
    worn: each(),
    fresh: Float64Array.from(all, (term) => (term.seam ? term.thread : term.cloth)),
    alike: Int16Array.from(all, (term) =>
      all.findIndex(
        ({ kind, grade, stretch }) => kind === term.kind && grade === term.grade && stretch === term.stretch,
      ),
    ),
    grown: each(),
    share: each(),
    open: { cloth: 0, seams: 0 },
    kind: Int16Array.from(all, ({ kind }) => kind ?? -1),
    own: each(),
    kinds,
    moved: new Float64Array(kinds),
    seamsMoved: new Float64Array(kinds),
    seamWeight,
    power,
  };
}

// Plain loops: these run thousands of times before anything is compiled for speed.
export function fill(
  room: Hazards,
  terms: readonly Term[],
  { cloth, lives, spreads, thread }: Likeness,
  { clock: { wear, shape }, prior }: { readonly clock: Clock; readonly prior: LifePrior },
): void {
  let [threadLife, threadHazard] = [0, 0];
  for (let i = 0; i < terms.length; i++) {
    const term = terms[i];
    if (term === undefined) continue;
    const { kind, grade } = term;
    const life = term.stretch * (kind === undefined ? (prior.cloth[grade] ?? 0) * cloth : (lives[kind] ?? 0));
    const same = room.alike[i] ?? i;
    const grown = same < i ? (room.grown[same] ?? 1) : growth(life, wear, shape);
    room.grown[i] = grown;
    const ofCloth = (term.cloth * DUE) / grown;
    const own = (prior.thread[grade] ?? 0) * thread;
    if (term.thread > 0 && own !== threadLife) [threadLife, threadHazard] = [own, passed(own, wear, shape)];
    const ofThread = term.thread * threadHazard;
    // new thread renews what hangs by thread; cloth that hangs by none is itself new
    const renewed = !term.renewed ? 0 : term.seam ? ofThread : ofCloth;
    room.old[i] = ofCloth + ofThread - renewed;
    room.worn[i] = renewed;
    if (kind !== undefined) {
      const steep = (shape * life * (grown + 1)) / ((wear + life) * grown);
      room.own[i] = ((spreads[kind] ?? 0) * steep * ofCloth) / (ofCloth + ofThread);
    }
  }
}

/** How far hazards have grown at some time, and what is open by then of what was left open. */
export interface Growth {
  readonly old: number;
  readonly fresh: number;
  readonly open: PlannedQuilt['open'];
}

const raised = (share: number, power: number): number =>
  power === 4 ? share * share * (share * share) : share ** power;

/** The damage of the whole quilt, and its log-spread where every kind of cloth has a share of its life that is its own. */
export interface Damage {
  share: number;
  spread: number;
}

/**
 * The damage of the whole quilt, t wear-years on: a mean over its parts, of power p,
 *
 *     D(t)^p = ½ F_seams^p + ½ Σ share_f · F_f^p,   F = o + (1 − o)·(1 − e^−hazard from now),
 *
 * where o is what was left open. p = 1 would be the plain share damaged, p = ∞ the first part to fail. Splitting a part
 * into like ones leaves D as it is for every p. What one kind does on its own moves ln D by as much of it as its part of
 * D^p; kinds are independent of one another, so their moves add up as squares do.
 */
export function damageAt(hazards: Hazards, { old, fresh, open }: Growth, into: Damage): void {
  const { cloths, weight, share, own, kind, kinds, moved, seamsMoved, seamWeight, power } = hazards;
  let sum = 0;
  let opened = 0;
  hazards.open.cloth = open.cloth;
  hazards.open.seams = open.seams;
  for (let i = 0; i < kinds; i++) moved[i] = seamsMoved[i] = 0;
  for (let i = 0; i < weight.length; i++) {
    const worn = hazards.worn[i] ?? 0;
    const renewed = worn > 0 ? Math.min(worn * old, (hazards.fresh[i] ?? 0) * fresh) : 0;
    const gone = 1 - Math.exp(-(hazards.old[i] ?? 0) * old - renewed);
    share[i] = gone;
    const which = kind[i] ?? 0;
    if (i < cloths) {
      const part = (weight[i] ?? 0) * raised(open.cloth + (1 - open.cloth) * gone, power);
      sum += part;
      if (which >= 0) moved[which] = (moved[which] ?? 0) + part * (own[i] ?? 0);
    } else {
      const part = (weight[i] ?? 0) * gone;
      opened += part;
      if (which >= 0) seamsMoved[which] = (seamsMoved[which] ?? 0) + part * (own[i] ?? 0);
    }
  }
  const part = seamWeight > 0 ? seamWeight * raised(open.seams + (1 - open.seams) * opened, power) : 0;
  sum += part;
  let squares = 0;
  for (let i = 0; i < kinds; i++) {
    const all = (moved[i] ?? 0) + (opened > 0 ? (part * (seamsMoved[i] ?? 0)) / opened : 0);
    squares += all * all;
  }
  into.share = power === 4 ? Math.sqrt(Math.sqrt(sum)) : sum ** (1 / power);
  into.spread = sum > 0 ? Math.sqrt(squares) / sum : 0;
}

/** Share of the seams that opens, as last worked out. */
function openedIn({ cloths, weight, share }: Hazards): number {
  let opened = 0;
  for (let i = cloths; i < weight.length; i++) opened += (weight[i] ?? 0) * (share[i] ?? 0);
  return opened;
}

/**
 * One over the number of parts in which the damage last worked out is counted: 1/N = Σ v²/n, where v is a part's share of
 * the count (these add up to 1) and n how many pieces it has. A part counts by its weight and by what is damaged of it to
 * the power (p + 1)/2: halfway between a plain count and D^p, in which the worst decides.
 */
export function perPart(hazards: Hazards, { units, joins }: Counts): number {
  const { cloths, weight, share, seamWeight, power } = hazards;
  let [all, squares] = [0, 0];
  for (let i = 0; i < cloths; i++) {
    all += (weight[i] ?? 0) * (share[i] ?? 0) ** ((power + 1) / 2);
    squares += (weight[i] ?? 0) * (share[i] ?? 0) ** (power + 1);
  }
  const seams = seamWeight * openedIn(hazards) ** ((power + 1) / 2);
  const ofSeams = joins > 0 ? (seams * seams) / joins : 0;
  return (((1 - seamWeight) * squares) / units + ofSeams) / (all + seams) ** 2;
}

/** How many parts a top has, and how many joins. */
export interface Counts {
  readonly units: number;
  readonly joins: number;
}

/**
 * What each term, in their order, makes up of the D^p last worked out, and last what was left open; they add up to 1. A
 * part of a share that is raised counts as that part of the share raised.
 */
export function partsOfDamage(hazards: Hazards): Float64Array {
  const { cloths, weight, share, seamWeight, power } = hazards;
  const { cloth, seams } = hazards.open;
  const many = weight.length;
  const parts = new Float64Array(many + 1);
  const opened = seams + (1 - seams) * openedIn(hazards);
  const perSeam = opened > 0 ? (seamWeight * raised(opened, power)) / opened : 0;
  let left = perSeam * seams;
  for (let i = 0; i < many; i++) {
    const gone = share[i] ?? 0;
    const own = weight[i] ?? 0;
    const damage = cloth + (1 - cloth) * gone;
    const each = i < cloths ? (damage > 0 ? (own * raised(damage, power)) / damage : 0) : perSeam * own;
    parts[i] = each * (1 - (i < cloths ? cloth : seams)) * gone;
    if (i < cloths) left += each * cloth;
  }
  parts[many] = left;
  const all = parts.reduce((sum, one) => sum + one, 0);
  return all > 0 ? parts.map((one) => one / all) : parts;
}
