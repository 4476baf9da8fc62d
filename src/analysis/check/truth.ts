import { boxesOf, knownOnly } from '../boxes.ts';
import type { Check, Remark } from '../examined.ts';
import { isPossible } from '../plan-kinds.ts';

/** Rules that can never be true, and rules that are true whatever is found. Exact, subjects taken as independent. */
export const truth: Check = ({ rules, space, waysTrue }) => ({
  remarks: rules.flatMap((rule): Remark[] => {
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
