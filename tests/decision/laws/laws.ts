import type { Family, QuiltCase } from '../../../src/casebook/model.ts';
import { GRADES, USES } from '../../../src/casebook/scales.ts';
import { provisionalOn } from '../../../src/decision/provisional.ts';
import { newHolesInOldCloth } from '../../../src/decision/situation.ts';
import { pairsOfOneStep } from './pairs.ts';
import { type Law, type Seen, years } from './seen.ts';

const withFamily = (quiltCase: QuiltCase, letter: string, changes: Partial<Family>): QuiltCase => ({
  ...quiltCase,
  survey: {
    ...quiltCase.survey,
    families: {
      ...quiltCase.survey.families,
      [letter]: { ...quiltCase.survey.families?.[letter], ...changes },
    },
  },
});

const letters = ({ survey }: QuiltCase): string[] => Object.keys(survey.families ?? {});

const forYears = (quiltCase: QuiltCase, wanted: number | undefined): QuiltCase => {
  const { wanted_years: _, ...client } = quiltCase.client;
  return { ...quiltCase, client: wanted === undefined ? client : { ...client, wanted_years: wanted } };
};

/** What a treatment alone does to cloth: nothing, stitches at points, stitches in lines. */
const needle = ({ plan }: Seen): number => (plan === undefined ? 0 : (NEEDLE[plan.treatment] ?? 0));
const NEEDLE: Readonly<Record<string, number>> = { backing: 1, tie: 1, lines: 2 };

const isBacked = ({ plan }: Seen): boolean => plan?.backing === 'add' || plan?.backing === 'replace';

/** How far the layers are touched: they stay as they are, are fastened or backed anew, or are taken apart. */
const depth = (seen: Seen): number => (seen.plan?.opens === true ? 2 : needle(seen) > 0 ? 1 : 0);

/** The same plan again, on another case: nothing but the case can make its figures differ. */
const same = (seen: Seen, { plan }: Seen) =>
  seen.settled.situation.options.find((option) => option.plan.id === plan?.id);

/**
 * Law 2. Not every hole in a fabric counts here: where it is weak it may be covered or patched over, with stitches round
 * it, and a whole new backing may be put under it, held at points: that is support, and support is what weak cloth wants.
 * What must not be is more of the treatment itself in it. No years are asked for, because they ask for more by
 * themselves. A forecast may lengthen by a tenth or half a year: damage seen in cloth said to be weaker is less of a sign
 * that everything on this quilt fails early.
 */
const WEAKER: Law = {
  title: 'weaker cloth never means more needle',
  pairs: (quiltCase) =>
    letters(quiltCase).flatMap((letter) =>
      GRADES.slice(1).map((grade, index) => ({
        what: `${letter}.fragility: ${GRADES[index]} to ${grade}`,
        from: withFamily(forYears(quiltCase, undefined), letter, { fragility: GRADES[index] ?? 'sound' }),
        to: withFamily(forYears(quiltCase, undefined), letter, { fragility: grade }),
      })),
    ),
  broken: (from, to) => {
    const leave = [from, to].map((seen) =>
      years(seen.settled.situation.options.find(({ plan }) => plan.treatment === 'leave')),
    );
    const longer = ([before = 0, after = 0]: readonly number[]): boolean =>
      after > Math.max(before * 1.1, before + 0.5);
    const told = [longer(leave) ? `left alone ${leave[0]} years, then ${leave[1]}` : ''];
    if (to.offered && !from.offered) told.push('weaker cloth is agreed to');
    if (!from.offered || !to.offered) return told.filter(Boolean);
    const supports = isBacked(to) && needle(to) === 1;
    return [
      ...told,
      needle(to) > needle(from) && !supports ? 'more is sewn' : '',
      depth(to) === 2 && depth(from) < 2 ? 'the quilt is opened' : '',
    ].filter(Boolean);
  },
};

/** Facts that may be left out, by where they stand; families' are added. */
const FACTS: readonly string[] = [
  ...['construction', 'made', 'weight', 'sewn', 'binding', 'batting', 'backing', 'joining'].map(
    (fact) => `quilt.${fact}`,
  ),
  ...['kind', 'rated_gap', 'migrated', 'crumbling'].map((fact) => `quilt.batting.${fact}`),
  ...['kind', 'fragility', 'damaged'].map((fact) => `quilt.backing.${fact}`),
  ...['kind', 'gap', 'missing'].map((fact) => `quilt.joining.${fact}`),
  ...['wish', 'intended_use', 'wanted_years', 'budget', 'hung'].map((fact) => `client.${fact}`),
  ...['units', 'family_map', 'joins', 'joins.inspected', 'joins.cloth'].map((fact) => `survey.${fact}`),
  ...['shattering_silk', 'outstanding_work', 'through_hole'].map((fact) => `survey.findings.${fact}`),
  'history',
];

const OF_FAMILY = ['fragility', 'fibre', 'dye_bleed', 'self_destructing', 'share'] as const;

type Tree = Readonly<Record<string, unknown>>;

/** The tree without what stands at a path; undefined where nothing stands there. */
function without(tree: unknown, [head = '', ...rest]: readonly string[]): Tree | undefined {
  if (typeof tree !== 'object' || tree === null || !(head in tree)) return undefined;
  const { [head]: here, ...others } = tree as Tree;
  if (rest.length === 0) return others;
  const left = without(here, rest);
  return left && { ...others, [head]: left };
}

/**
 * Law 3, for quilts on which little is wrong: what is known calls for no more than putting them back together. What is
 * left out may hide damage, so less may be advised; it never adds a layer, a line or a knot.
 */
const UNKNOWN: Law = {
  title: 'unknown is never more invasive than known',
  pairs: (quiltCase) =>
    [
      ...FACTS,
      ...letters(quiltCase).flatMap((letter) => OF_FAMILY.map((fact) => `survey.families.${letter}.${fact}`)),
    ].flatMap((path) => {
      const less = without(quiltCase, path.split('.'));
      // A case without a fact is a case all the same: every one of these may be left out.
      return less === undefined
        ? []
        : [{ what: `without ${path}`, from: quiltCase, to: less as unknown as QuiltCase }];
    }),
  broken: (from, to) => {
    if (!from.offered || depth(from) > 0) return [];
    const { situation, ballot, outcome } = to.settled;
    const differs =
      from.standing !== to.standing || from.settled.outcome.treatment !== to.settled.outcome.treatment;
    return [
      to.offered ? '' : `it is no longer taken on: ${to.standing}`,
      depth(to) > 0 ? `${to.plan?.id}` : '',
      differs && !provisionalOn(situation, ballot, outcome) ? 'another answer, and firm' : '',
    ].filter(Boolean);
  },
};

const rowsAre = (quiltCase: QuiltCase, row: number, state: 'sound' | 'unseen'): QuiltCase => ({
  ...quiltCase,
  survey: {
    ...quiltCase.survey,
    units: (quiltCase.survey.units ?? []).map((each, index) =>
      index === row ? each.map(() => state) : each,
    ),
  },
});

/** Law 4. Advice to leave it alone is a look and a talk: that costs the same whatever was not seen. */
const LESS_SEEN: Law = {
  title: 'less seen is never surer',
  pairs: (quiltCase) =>
    (quiltCase.survey.units ?? []).map((_, row) => ({
      what: `row ${row + 1}: seen and sound, or not seen`,
      from: rowsAre(quiltCase, row, 'sound'),
      to: rowsAre(quiltCase, row, 'unseen'),
    })),
  broken: (from, to, { what }) => {
    const [before, after] = [from.option, same(to, from)];
    if (before === undefined || after === undefined) return [];
    const asked = to.asks.some((rule) => rule === 'what-was-not-seen-is-looked-at');
    const told = asked ? [] : [`${what}: nobody is asked to look`];
    if (before.plan.treatment === 'leave') return told;
    const surer = (['hours', 'price', 'life'] as const).filter((figure) => {
      const [known, unknown] = [before.estimator[figure](), after.estimator[figure]()];
      // Units found sound are evidence of their own, so years may move a little either way; prices are rounded.
      const slack = { hours: 0, price: 20, life: known.high / 20 }[figure];
      const higher = figure === 'life' ? unknown.low <= known.low + slack : unknown.high >= known.high;
      return !higher || unknown.high - unknown.low < known.high - known.low - slack;
    });
    // Where all of the row is covered or replaced whatever is found, nothing is left to find.
    const kept = after.plan.actions.some(
      ({ group, action }) => group.state === 'unseen' && action === 'keep',
    );
    const wider = after.estimator.hours().high > before.estimator.hours().high;
    return [...told, ...surer, ...(wider || !kept ? [] : ['hours as before'])];
  },
};

const YEARS = [undefined, 1, 3, 5, 10, 20, 40] as const;

const LONGER: Law = {
  title: 'more years wanted never means less done',
  pairs: (quiltCase) =>
    YEARS.slice(1).map((wanted, index) => ({
      what: `${YEARS[index] ?? 'no'} years wanted, then ${wanted}`,
      from: forYears(quiltCase, YEARS[index]),
      to: forYears(quiltCase, wanted),
    })),
  broken: (from, to) => {
    if (from.standing !== to.standing) return [`${from.standing}, then ${to.standing}`];
    const [before, after] = [from, to].map(({ option }) => option?.estimator.holes().burden ?? 0);
    return [
      depth(to) < depth(from) ? 'less is done' : '',
      (after ?? 0) < (before ?? 0) - 1 ? `burden ${before}, then ${after}` : '',
    ].filter(Boolean);
  },
};

/**
 * Law 6. The ladder is told in three: the layers stay as they are, are fastened or backed anew, are taken apart. Which
 * fastening it is (tacks, ties, lines) goes by what it has to hold, and is one step. Between storage and a use lie two
 * different things: what is kept is left alone so that it lasts, what is used must bear it.
 */
const NEIGHBOURS: Law = {
  title: 'no cliff between neighbours',
  pairs: pairsOfOneStep,
  broken: (from, to, { what }) => {
    if (!from.offered || !to.offered) return [];
    const used = [from, to].every(({ settled }) => settled.situation.use !== 'storage');
    const ofUse = what.startsWith('intended_use');
    // Most seams are open and the back has to be renewed anyway: then they are reached from inside.
    const inside = [from, to].some(({ prefers }) => prefers.includes('most-seams-are-reached-from-inside'));
    // Filling stays or comes out, and it never comes out of a closed quilt: from a tenth on the client is asked first.
    const filling = what.startsWith('batting_migrated');
    const harder = isHarder(from, to) ? to : from;
    const softer = harder === to ? from : to;
    return [
      used && !inside && !filling && Math.abs(depth(from) - depth(to)) > 1
        ? 'from as it is to taken apart'
        : '',
      ofUse && isBacked(softer) && !isBacked(harder) && !onTheWall(softer)
        ? 'a new back for the softer use'
        : '',
      ofUse && depth(softer) > depth(harder) && !onTheWall(softer) ? 'more for the softer use' : '',
    ].filter(Boolean);
  },
};

/** What hangs bears its own weight all day; on a bed nothing pulls at it while nobody moves it. */
const onTheWall = ({ settled: { situation } }: Seen): boolean =>
  situation.use === 'display' && situation.quiltCase.client.hung === true;

const isHarder = (from: Seen, to: Seen): boolean =>
  USES.indexOf(to.settled.situation.use ?? 'storage') > USES.indexOf(from.settled.situation.use ?? 'storage');

/** The first of a fabric's units stay with it, every second one is told as another fabric. */
function toldAsTwo(quiltCase: QuiltCase, letter: string): QuiltCase {
  const { families = {}, family_map } = quiltCase.survey;
  const { share, lost, ...fabric } = families[letter] ?? {};
  const half = {
    ...fabric,
    ...(share === undefined ? {} : { share: share / 2 }),
    ...(lost === undefined ? {} : { lost: lost / 2 }),
  };
  let met = 0;
  const parted = (cell: string): string => (cell === letter && met++ % 2 === 1 ? 'Z' : cell);
  return {
    ...quiltCase,
    survey: {
      ...quiltCase.survey,
      families: { ...families, [letter]: half, Z: half },
      ...(family_map && { family_map: family_map.map((row) => row.map(parted)) }),
    },
  };
}

/**
 * Law 7. Two fabrics are two to match: the price may rise by what finding one more takes, and no further. Where nobody
 * noted which unit is of which fabric, neither do holes have a place, and they are counted by shares.
 */
const TOLD_TWICE: Law = {
  title: 'one fabric told as two changes nothing',
  pairs: (quiltCase) =>
    letters(quiltCase)
      .filter((letter) => quiltCase.survey.families?.[letter]?.lost === undefined)
      .map((letter) => ({
        what: `${letter} told as two`,
        from: quiltCase,
        to: toldAsTwo(quiltCase, letter),
      })),
  broken: (from, to) => {
    const names = [from, to].map(({ standing, plan }) => `${standing}: ${plan?.id}`);
    if (names[0] !== names[1]) return [names.join(', then ')];
    if (from.option === undefined || to.option === undefined) return [];
    const apart = (a: number, b: number): number => Math.abs(a - b);
    const [before, after] = [years(from.option), years(to.option)];
    const [cost, dearer] = [from, to].map(({ option }) => option?.estimator.price().likely ?? 0);
    const holes = [from.option, to.option].map(newHolesInOldCloth);
    return [
      apart(before, after) > 0.02 * before ? `years ${before}, then ${after}` : '',
      apart(cost ?? 0, dearer ?? 0) > from.search ? `price ${cost}, then ${dearer}` : '',
      apart(holes[0] ?? 0, holes[1] ?? 0) > 2 ? `holes ${holes.join(', then ')}` : '',
    ].filter(Boolean);
  },
};

/** Law 1 has a file of its own (softer-use.test.ts), and law 8 is about words. */
export const LAWS: Readonly<Record<number, Law>> = {
  2: WEAKER,
  3: UNKNOWN,
  4: LESS_SEEN,
  5: LONGER,
  6: NEIGHBOURS,
  7: TOLD_TWICE,
};
