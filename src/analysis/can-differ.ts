import type { Knowledge } from '../rulebook/knowledge.ts';
import type { Rule } from '../rulebook/model.ts';
import { boxesOf, meetAll, type Space, type Wanted } from './boxes.ts';
import { axesOf } from './cells.ts';
import type { Mutant } from './mutants.ts';
import { isPossible } from './plan-kinds.ts';
import { relationsOf } from './relations.ts';

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
