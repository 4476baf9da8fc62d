import type { Problem } from '../../problems/problem.ts';
import type { LayoutSpec, Quilt, Survey, ToldCause } from '../model.ts';
import { joinKey, LAYOUT_RULES, positionName, readJoin, rowName } from '../positions.ts';
import { DAMAGED_STATES, type UnitState } from '../scales.ts';
import { type Check, type CheckContext, type Look, looks, quilts, written } from './check.ts';
import { joinFault, unitFault } from './places.ts';

const error = { code: 'sum-mismatch', severity: 'error' } as const;
const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
const percent = (value: number): string => `${Math.round(value * 1000) / 10} %`;

const countsFit = ({ source }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const counts = survey.counts;
  if (!counts) return [];
  const { of, ...states } = counts;
  const sum = total(Object.values(states));
  const place = source.place([...path, 'counts', 'of']);
  if (sum > of)
    return [{ ...error, what: `the counts add up to ${sum}, but there are only ${of} in all`, place }];
  if (!layout || layout.kind === 'survey grid') return [];
  const units = total(LAYOUT_RULES[layout.kind].rows(layout));
  if (of === units || of === units * (layout.pieces_per_unit ?? 1)) return [];
  const what = `counts are of ${of}, but the layout has ${units} units`;
  return [{ code: 'suspicious', severity: 'warning', what, place }];
};

const sharesFit = ({ source }: CheckContext, { path, survey }: Look): Problem[] => {
  const families = Object.values(survey.families ?? {});
  const shares = families.flatMap(({ share }) => (share === undefined ? [] : [share]));
  const sum = total(shares);
  const place = () => source.place([...path, 'families'], 'key');
  const cure = 'Shares are of the whole top, so together they make 100 %.';
  // Estimates by eye are rounded: 2 % either way is not worth a message.
  const slack = 0.02 + 1e-9;
  if (sum > 1 + slack)
    return [{ ...error, what: `the families' shares add up to ${percent(sum)}`, cure, place: place() }];
  if (shares.length === 0 || shares.length < families.length || sum >= 1 - slack) return [];
  return [{ ...error, what: `the families' shares add up to only ${percent(sum)}`, cure, place: place() }];
};

const lostFit = ({ source }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const families = Object.values(survey.families ?? {});
  const lost = families.flatMap((family) => (family.lost === undefined ? [] : [family.lost]));
  if (families.length === 0 || lost.length < families.length) return [];
  const sum = total(lost);
  // On a survey grid the map shows cells, while families count patches.
  const mapped = layout?.kind === 'survey grid' ? undefined : survey.units;
  const stated = survey.counts
    ? (survey.counts.lost ?? 0)
    : mapped?.flat().filter((state) => state === 'lost').length;
  if (stated === undefined || stated === sum) return [];
  const other = survey.counts ? 'the counts have' : 'the map shows';
  const place = source.place([...path, 'families'], 'key');
  return [{ ...error, what: `the families have ${sum} lost units together, but ${other} ${stated}`, place }];
};

/** Counts, shares and losses add up. */
export const checkSums: Check = (context) =>
  looks(context).flatMap((look) => [
    ...countsFit(context, look),
    ...sharesFit(context, look),
    ...lostFit(context, look),
  ]);

/** What is said to be none, and the lines that would then have nothing to speak of. */
const PARTS = {
  batting: { said: 'there is no batting', of: ['fibre', 'rated_gap', 'migrated', 'crumbling'] },
  backing: { said: 'there is no backing', of: ['fragility', 'damaged'] },
  joining: { said: 'nothing holds the layers together', of: ['gap', 'missing'] },
} as const;

/** Lines about a part the quilt is said not to have. A share of none and a plain no say the same thing twice. */
export const checkAbsent: Check = (context) =>
  quilts(context).flatMap(({ path, quilt }) =>
    Object.entries(PARTS).flatMap(([name, { said, of }]): Problem[] => {
      const part = quilt[name as keyof Quilt & keyof typeof PARTS];
      if (part?.kind !== 'none') return [];
      const says = (line: string): boolean => {
        const value: unknown = Reflect.get(part, line);
        return value !== undefined && value !== 0 && value !== false;
      };
      return of.filter(says).map((line) => ({
        code: 'suspicious',
        severity: 'warning',
        what: `${said}, yet ${line} is stated`,
        cure: `Take ${line} out, or correct kind.`,
        place: context.source.place([...path, name, line]),
      }));
    }),
  );

const CAUSES = ['thread', 'cloth', 'allowance'] as const;

/** So many seams do not come to be all open by chance. */
const MANY = 20;

const counted = ({ source, quiltCase }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const joins = survey.joins;
  if (!joins) return [];
  const at = (name: string) => source.place([...path, 'joins', name]);
  const problems: Problem[] = [];
  const { inspected, open } = joins;
  const causes = CAUSES.flatMap((cause) => (joins[cause] === undefined ? [] : [joins[cause]]));
  const sum = causes.reduce((total, count) => total + count, 0);
  if (open !== undefined && (causes.length === CAUSES.length ? sum !== open : sum > open)) {
    const what = `thread, cloth and allowance add up to ${sum}, but ${open} joins are open`;
    problems.push({ ...error, what, place: at('open') });
  }
  if (open === undefined && inspected !== undefined && sum > inspected) {
    const what = `thread, cloth and allowance add up to ${sum}, but only ${inspected} joins were inspected`;
    problems.push({ ...error, what, place: at('inspected') });
  }
  if (open !== undefined && inspected !== undefined && open > inspected) {
    const what = `${open} joins are open, but only ${inspected} were inspected`;
    problems.push({ ...error, what, place: at('open') });
  }
  const total = layout && LAYOUT_RULES[layout.kind].joins(layout);
  const cloth = quiltCase.quilt.construction === 'wholecloth';
  if (inspected !== undefined && total !== undefined && !cloth && inspected > total) {
    const what = `${inspected} joins were inspected, but the layout has only ${total}`;
    problems.push({ ...error, what, place: at('inspected') });
  }
  const broken = open ?? sum;
  if (inspected === undefined && total !== undefined && !cloth && broken > total) {
    const what = `${broken} joins are open, but the layout has only ${total}`;
    problems.push({
      ...error,
      what,
      place: open === undefined ? source.place([...path, 'joins'], 'key') : at('open'),
    });
  }
  if (inspected !== undefined && inspected >= MANY && open === inspected) {
    const what = `all ${inspected} joins inspected are open`;
    const cure = 'Count under inspected every join looked at, the sound ones too.';
    problems.push({ code: 'suspicious', severity: 'warning', what, cure, place: at('inspected') });
  }
  const listed = joins.open_at?.length;
  const stated = written(source, [...path, 'joins', 'open']);
  if (listed !== undefined && typeof stated === 'number' && stated < listed) {
    const what = `${listed} open joins are listed under open_at, but open says ${stated}`;
    problems.push({ ...error, what, place: at('open') });
  } else if (listed !== undefined && typeof stated === 'number' && stated > listed) {
    const what = `open says ${stated}, but open_at lists only ${listed}`;
    problems.push({ code: 'suspicious', severity: 'warning', what, place: at('open') });
  }
  return problems;
};

/** Joins against each other and against the layout. */
export const checkJoins: Check = (context) => looks(context).flatMap((look) => counted(context, look));

const WHY = 'An accident says nothing of how long the rest will last, so the years would be wrong.';

type Known = { readonly [K in 'units' | 'counts' | 'joins' | 'families']?: Survey[K] | undefined };

/** One look, and all that was told of the quilt up to it: what its causes speak of may stand in an earlier one. */
interface Told extends Look {
  readonly known: Known;
}

const toldBy = (context: CheckContext): Told[] => {
  let known: Known = {};
  return looks(context).map((look) => {
    const { units, counts, ...kept } = known;
    const { survey } = look;
    // A count and a map say the same thing in two ways: the later one holds alone.
    const states = survey.units || survey.counts ? survey : { units, counts };
    known = {
      units: states.units,
      counts: states.counts,
      joins: survey.joins ?? kept.joins,
      families: survey.families ?? kept.families,
    };
    return { ...look, known };
  });
};

const damagedIn = ({ units, counts, families = {} }: Known): number => {
  const states = [...DAMAGED_STATES];
  const mapped = units?.flat().filter((state) => states.includes(state)).length;
  const told =
    counts && states.reduce((sum, state) => sum + (state === 'sound' ? 0 : (counts[state] ?? 0)), 0);
  const lost = Object.values(families).reduce((sum, family) => sum + (family.lost ?? 0), 0);
  // On a survey grid the map shows cells, and counts are of patches.
  return mapped === undefined && told === undefined ? lost : Math.max(mapped ?? 0, told ?? 0);
};

const openIn = ({ joins }: Known): number =>
  joins?.open ?? (joins?.thread ?? 0) + (joins?.cloth ?? 0) + (joins?.allowance ?? 0);

const stateAt = (units: NonNullable<Survey['units']>, name: string): UnitState | undefined => {
  const [, letters, digits] = /^([A-Z]+)(\d+)$/.exec(name) ?? [];
  return units.find((_, row) => rowName(row) === letters)?.[Number(digits) - 1];
};

/** What is wrong with one place of a cause, if anything. */
const placeFault = (name: string, layout: LayoutSpec | undefined, known: Known): Fault | undefined => {
  const join = readJoin(name);
  if (join !== undefined) {
    const [a, b] = [positionName(join.a), positionName(join.b)];
    const fault = layout && joinFault(layout, a, b, join.sign);
    const listed = known.joins?.open_at;
    if (fault !== undefined || listed === undefined) return fault;
    if (listed.some(({ between }) => joinKey(...between) === joinKey(a, b))) return undefined;
    const what = `the join ${name} is not among the open ones, yet a cause is given for it`;
    return { ...error, what, why: WHY, cure: 'Add it under open_at, or take it out here.' };
  }
  const fault = unitFault(layout, name);
  const state = known.units && stateAt(known.units, name);
  if (fault !== undefined || state === undefined || DAMAGED_STATES.has(state)) return fault;
  const what = `${name} is ${state === 'unseen' ? 'not seen' : state} on the map, yet a cause of loss is given for it`;
  return { ...error, what, why: WHY, cure: `Correct the map, or take ${name} out here.` };
};

type Fault = Omit<Problem, 'place'>;

const isJoin = (name: string): boolean => readJoin(name) !== undefined;

/** How many of units or joins a cause speaks of; all that are left where it says no number. */
const spokenOf = ({ places, count }: ToldCause, of: 'units' | 'joins'): number => {
  if (typeof places === 'string') return places === of ? (count ?? 0) : 0;
  return places.filter((name) => isJoin(name) === (of === 'joins')).length;
};

const oneLook = ({ source }: CheckContext, { path, survey, layout, known }: Told): Problem[] => {
  const causes = survey.causes ?? [];
  const problems: Problem[] = [];
  const before = new Set<string>();
  for (const [index, { places, count }] of causes.entries()) {
    const at = [...path, 'causes', index, 'places'];
    const whole = typeof places === 'string';
    if (!whole && count !== undefined) {
      const what = `places are named one by one, and count says ${count} as well`;
      const cure = 'Take count out; or write places: units or places: joins, and how many of them.';
      problems.push({ ...error, what, cure, place: source.place([...path, 'causes', index, 'count']) });
    }
    for (const [nth, name] of (whole ? [] : places).entries()) {
      const join = readJoin(name);
      const key = join === undefined ? name : joinKey(join.a, join.b);
      const twice = { ...error, what: `the cause of ${name} is given twice`, cure: 'Keep one of them.' };
      const fault = before.has(key) ? twice : placeFault(name, layout, known);
      before.add(key);
      const place = source.place([...at, nth]);
      if (fault !== undefined) problems.push({ ...fault, place });
    }
  }
  for (const [of, there, words] of [
    ['units', damagedIn(known), 'units are lost or damaged'],
    ['joins', openIn(known), 'joins are open'],
  ] as const) {
    const sum = causes.reduce((all, cause) => all + spokenOf(cause, of), 0);
    const any = causes.some(({ places }) => places === of);
    if (sum <= there && !(any && there === 0)) continue;
    const what =
      sum > there
        ? `causes are given for ${sum} ${of}, but only ${there} ${words}`
        : `no ${words}, yet a cause is given`;
    const cure = 'Count again and correct one of them.';
    problems.push({ ...error, what, why: WHY, cure, place: source.place([...path, 'causes'], 'key') });
  }
  return problems;
};

/** Why something was lost, against what was lost. */
export const checkCauses: Check = (context) => toldBy(context).flatMap((look) => oneLook(context, look));
