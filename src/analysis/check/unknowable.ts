import { factOfOption } from '../../findings/vocabulary.ts';
import { samplesIn } from '../cells.ts';
import { type Check, type Remark, sayBox } from '../examined.ts';

/**
 * Rules that ask for a finding which nobody can know from what they apply to: one that falls away on the quilts the
 * rule speaks of, or one that needs the quilt in hand where the rule speaks of photographs.
 */
export const unknowable: Check = (examined) => {
  const { rules, vocabulary, space, waysTrue } = examined;
  const remarks = rules.flatMap((rule): Remark[] => {
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
