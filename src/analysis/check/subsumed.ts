import { isDeepStrictEqual } from 'node:util';
import { factOfOption } from '../../findings/vocabulary.ts';
import type { EffectName, Effects, PlanTarget, Rule } from '../../rulebook/model.ts';
import { boxesOf, isPossible, knownOnly, meet } from '../boxes.ts';
import { samplesIn } from '../cells.ts';
import { type Check, type Diagnostic, type RulebookModel, sayBox } from '../rulebook-model.ts';

/** Rules that add nothing, because another with the same effect is true whenever they are. */
export const subsumed: Check = (examined) => {
  const { rules } = examined;
  const remarks = rules.flatMap((rule, index) =>
    rules.flatMap((other, place): Diagnostic[] => {
      if (other === rule || other.group !== rule.group || !adds(rule, other)) return [];
      if (!implies(rule, other, examined)) return [];
      const alike = implies(other, rule, examined) && adds(other, rule);
      // Of two that are alike the later one is named, once.
      if (alike && place > index) return [];
      return [
        {
          code: 'subsumed-rule',
          severity: 'warning',
          what: alike
            ? `"${rule.id}" and "${other.id}" say the same of the same quilts`
            : `"${rule.id}" adds nothing: whenever it is true, "${other.id}" is true and does the same`,
          rules: [rule, other],
          example: (examined.waysTrue(rule)[0] ?? new Map()).size > 0 ? exampleOf(rule, examined) : [],
        },
      ];
    }),
  );
  return { remarks, notCovered: [] };
};

const exampleOf = (rule: Rule, { waysTrue, space }: RulebookModel): string[] => {
  const [first] = waysTrue(rule);
  return first === undefined ? [] : sayBox(first, space);
};

/** Everything `rule` does, `other` does too, and yields to no more. */
const adds = (rule: Rule, other: Rule): boolean =>
  Object.keys(rule.effects).every((name) =>
    sameEffect(rule.effects[name as EffectName], other.effects[name as EffectName]),
  ) && other.yieldsTo.every((id) => rule.yieldsTo.includes(id));

const sameEffect = (a: Effects[EffectName], b: Effects[EffectName]): boolean =>
  isDeepStrictEqual(bare(a), bare(b));

/** Tests without their places: where something is written is no part of what it says. */
const bare = (effect: string | PlanTarget | undefined): unknown =>
  effect === undefined || typeof effect === 'string'
    ? effect
    : effect.map(({ key, comparison, operand }) => ({ key, comparison, operand }));

function implies(rule: Rule, other: Rule, { space, waysTrue }: RulebookModel): boolean {
  const ways = waysTrue(rule);
  // A condition that names a subject the rule does not name can only be implied where it is always true.
  const escapes = boxesOf(other.when, 'not true', space);
  return (
    ways.length > 0 &&
    ways.every((way) =>
      escapes.every((exit) => {
        const met = meet(way, exit, space);
        return met === undefined || !isPossible(met, space);
      }),
    )
  );
}

/** Rules that can never be true, and rules that are true whatever is found. Exact, subjects taken as independent. */
export const truth: Check = ({ rules, space, waysTrue }) => ({
  remarks: rules.flatMap((rule): Diagnostic[] => {
    if (waysTrue(rule).length === 0) {
      return [
        {
          code: 'never-true',
          severity: 'error',
          what: `"${rule.id}" can never be true: its conditions exclude each other`,
          rules: [rule],
          example: [],
        },
      ];
    }
    const otherwise = boxesOf(rule.when, 'not true', space)
      .flatMap((box) => knownOnly(box, space) ?? [])
      .filter((box) => isPossible(box, space));
    if (otherwise.length > 0) return [];
    return [
      {
        code: 'always-true',
        severity: 'error',
        what: `"${rule.id}" is true of every quilt on which its findings are known`,
        rules: [rule],
        example: [],
      },
    ];
  }),
  notCovered: [],
});

/**
 * Rules that ask for a finding which nobody can know from what they apply to: one that falls away on the quilts the
 * rule speaks of, or one that needs the quilt in hand where the rule speaks of photographs.
 */
export const unknowable: Check = (examined) => {
  const { rules, vocabulary, space, waysTrue } = examined;
  const remarks = rules.flatMap((rule): Diagnostic[] => {
    const asked = [...new Set(rule.tests.filter(({ comparison }) => comparison !== 'is unknown'))].filter(
      ({ subject }) => subject === 'finding',
    );
    for (const test of asked) {
      const def = vocabulary.findings.get(test.id);
      const { all = 0n } = space.axes.get(test.key) ?? {};
      for (const way of waysTrue(rule)) {
        if (def === undefined || ((way.get(test.key) ?? all) & 1n) !== 0n) continue;
        const only = (key: string): unknown => {
          const axis = space.axes.get(key);
          const cells = way.get(key);
          const left = axis === undefined || cells === undefined ? [] : samplesIn(axis, cells);
          return left.length === 1 ? left[0] : undefined;
        };
        const because = [
          ...def.needless
            .filter(({ finding, is, gives }) => {
              const other = vocabulary.findings.get(finding);
              const value = other !== undefined && typeof is === 'string' ? factOfOption(other, is) : is;
              return gives === undefined && value !== undefined && only(`finding.${finding}`) === value;
            })
            .map(({ finding }) => `it falls away by what the rule asks of ${finding}`),
          ...(def.who === 'in hand' && only('finding.seen') === 'photos'
            ? ['the rule speaks of quilts seen in photographs, and it can only be known in hand']
            : []),
        ];
        if (because.length > 0) {
          return [
            {
              code: 'unknowable-finding',
              severity: 'error',
              what: `"${rule.id}" asks for ${test.id}, which nobody can know there: ${because[0]}`,
              rules: [rule],
              example: sayBox(way, space),
            },
          ];
        }
      }
    }
    return [];
  });
  return { remarks, notCovered: [] };
};
