import { DAMAGED_STATES } from '../../casebook/scales.ts';
import { highest, lowest, type Span } from '../../findings/fact.ts';
import { fabricsOf, isGone } from '../../findings/old-cloth.ts';
import type { SurveyedJoins, SurveyedQuilt, UnitGroup } from '../../findings/surveyed.ts';
import { openJoins, toldOfJoins, toldOfUnits } from '../../findings/told-causes.ts';
import { FAILING, gradeChances, type Kind, type QuiltEvidence, type SeamEvidence } from './model.ts';

/** One fabric of a top; cloth that nobody graded counts as one. */
export interface Fabric {
  readonly letter: string | undefined;
  /** Words for a client, such as "the brown print". */
  readonly name: string;
  readonly fragility: number | Span;
  /** Undefined where nobody checked. */
  readonly selfDestructing: boolean | undefined;
  /** Fabrics of one key wear alike: they are one kind of cloth. */
  readonly kind: string;
}

const UNGRADED: Span = { lo: 0, hi: FAILING };

/** Fabrics that lie in the top, by letter. */
export function fabricsIn(quilt: SurveyedQuilt): ReadonlyMap<string | undefined, Fabric> {
  const letters = [...new Set(fabricsOf(quilt).map(({ family }) => family))].sort();
  return new Map(letters.map((letter) => [letter, fabricOf(quilt, letter)]));
}

function fabricOf({ families }: SurveyedQuilt, letter: string | undefined): Fabric {
  const family = letter === undefined ? undefined : families[letter];
  const nobody = Object.keys(families).length === 0 ? 'the old cloth' : 'the cloth nobody graded';
  const own = family === undefined || family.name === letter ? `fabric ${letter}` : `the ${family.name}`;
  const fragility = family?.fragility ?? UNGRADED;
  const selfDestructing = family?.selfDestructing;
  return {
    letter,
    name: letter === undefined ? nobody : own,
    fragility,
    selfDestructing,
    kind: `${lowest(fragility)} ${highest(fragility)} ${selfDestructing === true}`,
  };
}

/**
 * What the survey tells of how the quilt has worn, and the keys of its kinds of cloth in their order. `gradeOdds`: the
 * vocabulary's chances of each grade, best first.
 */
export function evidenceOf(
  quilt: SurveyedQuilt,
  wear: QuiltEvidence['wear'],
  gradeOdds: readonly number[] | undefined,
): { readonly evidence: QuiltEvidence; readonly order: readonly string[] } {
  const fabrics = fabricsIn(quilt);
  const order = [...new Set([...fabrics.values()].map(({ kind }) => kind))];
  const kinds = order.map((key): Kind => {
    const own = [...fabrics.values()].filter(({ kind }) => kind === key);
    const counts = own.map(({ letter }) =>
      seenOf(
        quilt,
        fabricsOf(quilt).filter(({ family }) => family === letter),
      ),
    );
    const sum = (of: keyof Seen): number => counts.reduce((all, one) => all + one[of], 0);
    return {
      grades: gradeChances(own[0]?.fragility ?? UNGRADED, gradeOdds),
      share: sum('share'),
      seen: sum('seen'),
      worn: sum('worn'),
      untold: sum('untold'),
    };
  });
  const joins = joinsOf(quilt.joins);
  const units = Math.max(1, quilt.total);
  return { evidence: { wear, kinds, seams: seamEvidence(quilt), units, joins }, order };
}

const beyondDust = (count: number): number => (count > 1e-9 ? count : 0);

type Seen = Omit<Kind, 'grades'>;

/** What accidents took is no evidence, and leaves both counts: those seen, and those damaged. */
function seenOf(quilt: SurveyedQuilt, groups: readonly UnitGroup[]): Seen {
  const count = (some: readonly UnitGroup[]): number => some.reduce((sum, group) => sum + group.count, 0);
  const looked = groups.filter(({ state }) => state !== 'unseen');
  // a fabric known only by its losses was counted through: the rest of it is whole
  const lossesOnly = looked.length > 0 && looked.every(isGone);
  const [seen, damaged] = [
    count(lossesOnly ? groups : looked),
    looked.filter(({ state }) => DAMAGED_STATES.has(state)),
  ];
  let [worn, taken] = [0, 0];
  for (const group of damaged) {
    const told = toldOfUnits(quilt, group);
    worn += told.wear * group.count;
    taken += told.nothing * group.count;
  }
  return {
    share: groups.reduce((sum, group) => sum + group.share, 0),
    seen: seen - taken,
    worn,
    untold: beyondDust(count(damaged) - worn - taken),
  };
}

export const joinsOf = ({ total, inspected }: SurveyedJoins): number => Math.max(total, inspected ?? 0);

/** Allowances that ravelled away count as thread: the cloth beside them held. What accidents opened is no evidence. */
function seamEvidence(quilt: SurveyedQuilt): SeamEvidence {
  const { inspected, open, thread, cloth, allowance } = quilt.joins;
  const told = [thread, cloth, allowance].reduce<number>((sum, count) => sum + (count ?? 0), 0);
  const silent = open === undefined && told === 0;
  if (inspected === undefined || inspected === 0 || silent)
    return { seen: 0, thread: 0, cloth: 0, untold: 0 };
  const taken = toldOfJoins(quilt).nothing;
  const left = (count: number): number => (1 - taken) * count;
  return {
    seen: Math.max(inspected, told) - taken * openJoins(quilt.joins),
    thread: left((thread ?? 0) + (allowance ?? 0)),
    cloth: left(cloth ?? 0),
    untold: left(Math.max(0, (open ?? 0) - told)),
  };
}
