import type { Rule, RuleGroup } from '../../rulebook/model.ts';
import { isOrdered } from '../../rulebook/subjects.ts';
import { isPossible, meet } from '../boxes.ts';
import type { Axis, Box, CellSet } from '../cells.ts';
import { type Check, type Diagnostic, type RulebookModel, sayBox, sayFact } from '../rulebook-model.ts';

/** The stretch of one scale on which a rule speaks, and what else it asks for. */
interface Band {
  readonly rule: Rule;
  readonly cells: CellSet;
  readonly first: number;
  readonly last: number;
  readonly ways: readonly Box[];
}

/**
 * Scales that rules of one stage cut into grades: values between two grades that no rule of the stage speaks of, and
 * values at which two neighbouring grades both hold.
 */
export const thresholds: Check = (examined) => {
  const remarks = [...examined.space.axes.values()]
    .filter(({ subject, samples }) => isOrdered(subject) && samples.length > 2)
    .flatMap((axis) =>
      [...new Set(examined.rules.map(({ group }) => group))].flatMap((group) => {
        const bands = examined.rules
          .filter((rule) => rule.group === group)
          .flatMap((rule) => bandOf(rule, axis, examined));
        return [...holes(bands, spokenOf(group, axis, examined), axis), ...overlaps(bands, axis, examined)];
      }),
    );
  return { remarks, notCovered: [] };
};

function bandOf(rule: Rule, axis: Axis, { waysTrue }: RulebookModel): Band[] {
  if (!rule.tests.some(({ key }) => key === axis.key)) return [];
  const ways = waysTrue(rule);
  // A rule that in one of its ways may be true wherever the scale stands cuts no grade out of it.
  if (ways.length === 0 || ways.some((way) => !way.has(axis.key))) return [];
  const cells = ways.reduce<CellSet>((set, way) => set | (way.get(axis.key) ?? 0n), 0n) & axis.known;
  const held = axis.samples.map((_, cell) => cell).filter((cell) => (cells & (1n << BigInt(cell))) !== 0n);
  const [first, last] = [held[0], held.at(-1)];
  if (first === undefined || last === undefined || cells === axis.known) return [];
  return [{ rule, cells, first, last, ways }];
}

/** Every cell that some rule of the stage speaks of in some way. */
const spokenOf = (group: RuleGroup, axis: Axis, { rules, waysTrue }: RulebookModel): CellSet =>
  rules
    .filter((rule) => rule.group === group)
    .flatMap((rule) => waysTrue(rule).map((way) => way.get(axis.key) ?? 0n))
    .reduce<CellSet>((set, cells) => set | cells, 0n);

function holes(bands: readonly Band[], covered: CellSet, axis: Axis): Diagnostic[] {
  return axis.samples.flatMap((sample, cell): Diagnostic[] => {
    if (cell === 0 || (covered & (1n << BigInt(cell))) !== 0n) return [];
    const below = bands.filter(({ last }) => last === cell - 1);
    const above = bands.filter(({ first }) => first > cell).sort((a, b) => a.first - b.first);
    const [under, over] = [below[0], above[0]];
    if (under === undefined || over === undefined) return [];
    return [
      {
        code: 'threshold-hole',
        severity: 'warning',
        what: `Between "${under.rule.id}" and "${over.rule.id}" lie values of "${axis.subject.label}" that no rule of this stage speaks of`,
        rules: [under.rule, over.rule],
        example: [sayFact(axis.subject, sample)],
      },
    ];
  });
}

function overlaps(bands: readonly Band[], axis: Axis, { space }: RulebookModel): Diagnostic[] {
  return bands.flatMap((lower) =>
    bands.flatMap((upper): Diagnostic[] => {
      const touching = lower.last === upper.first && lower.first < lower.last && upper.first < upper.last;
      const crossing =
        lower.first < upper.first &&
        upper.first <= lower.last &&
        lower.last < upper.last &&
        isAlone(lower) &&
        isAlone(upper);
      if (lower.rule === upper.rule || !(touching || crossing)) return [];
      const here: Box = new Map([[axis.key, lower.cells & upper.cells]]);
      const both = lower.ways
        .flatMap((a) => upper.ways.flatMap((b) => meet(a, b, space) ?? []))
        .flatMap((box) => meet(box, here, space) ?? [])
        .find((box) => isPossible(box, space));
      if (both === undefined) return [];
      return [
        {
          code: 'threshold-overlap',
          severity: 'warning',
          what: `"${lower.rule.id}" and "${upper.rule.id}" both hold where one grade should end and the next begin`,
          rules: [lower.rule, upper.rule],
          example: sayBox(both, space),
        },
      ];
    }),
  );
}

const isAlone = ({ ways }: Band): boolean => ways.every((way) => way.size === 1);
