import { boxesOf, isPossible, meetAll, type Wanted } from '../../src/analysis/boxes.ts';
import { axesOf, type Space } from '../../src/analysis/cells.ts';
import { relationsOf } from '../../src/analysis/relations.ts';
import type { Knowledge } from '../../src/rulebook/knowledge.ts';
import type { Rule } from '../../src/rulebook/model.ts';
import type { Mutant } from './mutants.ts';

/**
 * Whether any facts tell a mutant from its rule. A condition that follows from others can be left out without a
 * difference: a plan that ties has no directions but both, a plan that leaves the quilt alone sews nothing.
 */
export function canDiffer(
  { rule, mutated, kind }: Mutant,
  rules: readonly Rule[],
  knowledge: Knowledge,
): boolean {
  if (kind === 'effect') return true;
  const { subjects, vocabulary, figures } = knowledge;
  const space: Space = {
    axes: axesOf([...rules, mutated], subjects),
    relations: relationsOf(vocabulary, figures),
  };
  const apart: readonly (readonly [Rule, Wanted, Rule, Wanted])[] = [
    [rule, 'true', mutated, 'not true'],
    [mutated, 'true', rule, 'not true'],
  ];
  return apart.some(([a, is, b, isNot]) =>
    meetAll(boxesOf(a.when, is, space), boxesOf(b.when, isNot, space), space).some((box) =>
      isPossible(box, space),
    ),
  );
}
