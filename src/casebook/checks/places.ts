import type { Problem } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import type { LayoutSpec } from '../model.ts';
import {
  joinKey,
  LAYOUT_RULES,
  positionName,
  rankOf,
  readJoin,
  rowAndColumn,
  rowName,
} from '../positions.ts';
import { GRAVEST_FIRST, UNIT_STATES } from '../scales.ts';
import { type Check, type CheckContext, type Look, looks } from './check.ts';

const error = { code: 'no-such-position', severity: 'error' } as const;

const spotOf = (layout: LayoutSpec, name: string) => LAYOUT_RULES[layout.kind].spot(layout, name);

const extentOf = (layout: LayoutSpec): string => {
  const rows = LAYOUT_RULES[layout.kind].rows(layout);
  return `This quilt has rows A to ${rowName(rows.length - 1)} and columns 1 to ${Math.max(...rows)}.`;
};

const shaped = (name: string): boolean =>
  /^([A-Z]{1,3}[1-9]\d{0,3}|(top|bottom|left|right)-(\d+|left|right))$/.test(name);

const openJoins = ({ source }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const seen = new Map<string, number>();
  return (survey.joins?.open_at ?? []).flatMap(({ between: [a, b] }, index): Problem[] => {
    const place = source.place([...path, 'joins', 'open_at', index]);
    if (b === '') {
      const [, word] = /^\S+\s*[|/]\s*\S+\s+(\w+)$/.exec(a) ?? [];
      const cause = word === undefined ? undefined : suggest(word, ['thread', 'cloth', 'allowance']);
      const cure =
        'Write "C4|C5 thread" for units side by side, "B2/C2 cloth" for units one above the other.';
      const what = `"${a}" does not name a join and its cause`;
      return [
        { code: 'wrong-kind', severity: 'error', what, cure, place, ...(cause ? { didYouMean: cause } : {}) },
      ];
    }
    const key = joinKey(a, b);
    const before = seen.get(key);
    seen.set(key, index);
    if (before !== undefined) {
      const what = `the join of ${a} and ${b} is listed twice`;
      return [{ code: 'sum-mismatch', severity: 'error', what, cure: 'Keep one of them.', place }];
    }
    const sign = readJoin(String(source.doc.getIn([...path, 'joins', 'open_at', index])))?.sign ?? '|';
    const fault = layout && joinFault(layout, a, b, sign);
    return fault === undefined ? [] : [{ ...fault, place }];
  });
};

type Fault = Omit<Problem, 'place'>;

/** Two units that are not both on the quilt, or share no join there. */
export const joinFault = (layout: LayoutSpec, a: string, b: string, sign: '|' | '/'): Fault | undefined => {
  const missing = [a, b].find((name) => !spotOf(layout, name));
  if (missing !== undefined)
    return { ...error, what: `there is no unit ${missing} on this quilt`, cure: extentOf(layout) };
  const [one, other] = [spotOf(layout, a), spotOf(layout, b)];
  const rules = LAYOUT_RULES[layout.kind];
  if (!one || !other || rules.neighbours(one, other, sign)) return undefined;
  const turned = rules.neighbours(one, other, sign === '|' ? '/' : '|');
  const what = turned
    ? `${a} and ${b} lie ${sign === '|' ? 'one above the other' : 'side by side'}, so the mark between them is not ${sign}`
    : `${a} and ${b} are not neighbours, so they share no join`;
  const cure = 'Write | between units side by side and / between units one above the other.';
  return {
    ...error,
    what,
    cure,
    ...(turned ? { didYouMean: `${a}${sign === '|' ? '/' : '|'}${b}` } : {}),
  };
};

/** What is not a position, or not one of this quilt. */
export const unitFault = (layout: LayoutSpec | undefined, name: string): Fault | undefined => {
  if (!shaped(name)) return { ...error, what: `"${name}" is not a position` };
  if (!layout || spotOf(layout, name)) return undefined;
  return { ...error, what: `there is no unit ${name} on this quilt`, cure: extentOf(layout) };
};

const mustStay = (context: CheckContext): Problem[] => {
  const { source, quiltCase } = context;
  const later = quiltCase.resurveys.map((resurvey, index) => ({
    path: ['resurveys', index, 'quilt', 'must_stay'],
    names: resurvey.quilt?.must_stay,
    layout: resurvey.quilt?.layout ?? quiltCase.quilt.layout,
  }));
  const first = {
    path: ['quilt', 'must_stay'],
    names: quiltCase.quilt.must_stay,
    layout: quiltCase.quilt.layout,
  };
  return [first, ...later].flatMap(({ path, names, layout }) =>
    (names ?? []).flatMap((written, index): Problem[] => {
      const fault = unitFault(layout, positionName(written));
      return fault === undefined ? [] : [{ ...fault, place: source.place([...path, index]) }];
    }),
  );
};

/** A further mark goes with a graver one on the map, on a square there is; each stands once. */
const furtherMarks = ({ source }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const { also = [], units } = survey;
  return also.flatMap(({ at, state }, index): Problem[] => {
    const place = source.place([...path, 'also', index]);
    const wrong = { code: 'map-letter', severity: 'error', place } as const;
    if (!shaped(at) || rankOf(state) < 0) {
      const cure = `Write it like B3 flattened. Marks: ${GRAVEST_FIRST.join(', ')}.`;
      return [
        {
          ...wrong,
          what: `"${source.doc.getIn([...path, 'also', index])}" does not name a unit and a further mark`,
          cure,
        },
      ];
    }
    if (units === undefined) {
      const cure = 'Put the map of units beside it, with the gravest mark of each unit.';
      return [{ ...wrong, what: `also speaks of ${at}, but there is no map of units beside it`, cure }];
    }
    const spot = layout && spotOf(layout, at);
    const map = rowAndColumn(at);
    const first = map && units[map.row]?.[map.column];
    if (first === undefined || (layout && !spot)) {
      const cure = layout ? extentOf(layout) : undefined;
      return [{ ...error, what: `there is no unit ${at} on this quilt`, place, ...(cure ? { cure } : {}) }];
    }
    if (also.findIndex((other) => other.at === at && other.state === state) < index)
      return [{ ...wrong, what: `${at} is said twice to be ${state} as well`, cure: 'Keep one of them.' }];
    if (rankOf(first) >= 0 && rankOf(first) < rankOf(state)) return [];
    const cure =
      rankOf(first) < 0
        ? `Put ${UNIT_STATES[state]} on the map at ${at}, or take this line out.`
        : `Put the graver mark on the map: ${UNIT_STATES[state]} at ${at}, and ${first} here.`;
    return [{ ...wrong, what: `${at} is ${first} on the map, so it cannot be ${state} as well`, cure }];
  });
};

/** Every position named in the case lies on the quilt, and every join named is one. */
export const checkPlaces: Check = (context) => [
  ...mustStay(context),
  ...looks(context).flatMap((look) => [...openJoins(context, look), ...furtherMarks(context, look)]),
];
