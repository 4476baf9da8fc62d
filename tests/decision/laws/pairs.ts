import type { QuiltCase } from '../../../src/casebook/model.ts';
import { USES } from '../../../src/casebook/scales.ts';
import { variablesOf } from '../../../src/decision/questions/ask.ts';
import type { CaseValue, Variable } from '../../../src/decision/questions/variable.ts';
import { context } from '../shipped.ts';

/** Two cases that differ in one thing. */
export interface Pair {
  readonly what: string;
  readonly from: QuiltCase;
  readonly to: QuiltCase;
}

type Step = readonly [CaseValue, CaseValue];

/** One step up and one down, and a step over every mark of a rule that is in reach. */
function steps({ id, current, scale, others }: Variable): readonly Step[] {
  if (current === undefined || typeof current === 'boolean') return [];
  if (scale === undefined)
    return others
      .map((other): Step => [current, other])
      .filter(([from, to]) => id !== 'intended_use' || Math.abs(place(from) - place(to)) === 1);
  const { step, min, max, marks } = scale;
  const near = (value: number): number => Math.round(value * 1e6) / 1e6;
  return [...new Set([Number(current), ...marks])]
    .flatMap((mark): Step[] => [
      [near(mark - step), mark],
      [mark, near(mark + step)],
    ])
    .filter(([from, to]) => Number(from) >= min && Number(to) <= max);
}

const place = (use: CaseValue): number => (USES as readonly CaseValue[]).indexOf(use);

/** What is no matter of more or less: another wish or another price is another question. */
const NOT_GRADED = new Set(['wish', 'budget', 'wanted_years', 'made_about', 'monetary_value']);

/** A case and the like of it, one grade, share, count or use further on. */
export function pairsOfOneStep(quiltCase: QuiltCase): readonly Pair[] {
  const { alone, variables } = variablesOf(quiltCase, context);
  return variables
    .filter(({ id }) => !NOT_GRADED.has(id))
    .flatMap((variable) =>
      steps(variable).map(([from, to]) => ({
        what: `${variable.id}: ${from} to ${to}`,
        from: from === variable.current ? alone : variable.set(alone, from),
        to: variable.set(alone, to),
      })),
    );
}
