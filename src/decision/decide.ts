import type { QuiltCase } from '../casebook/model.ts';
import type { Answer } from './answer-model.ts';
import { confirm } from './confirm.ts';
import type { DecisionContext } from './context.ts';
import { evaluate } from './evaluate.ts';
import { explain } from './explain.ts';
import type { Settled } from './settled.ts';

/** An answer with what it was made from. */
export interface Decision extends Settled {
  readonly answer: Answer;
}

/** A case evaluated and explained. Same input, same bytes. */
export const decideQuick = (quiltCase: QuiltCase, context: DecisionContext): Decision => {
  const settled = evaluate(quiltCase, context);
  return { ...settled, answer: explain(settled, context) };
};

/** The same, confirmed by json-rules-engine: what is recorded, printed or put on paper. */
export async function decide(quiltCase: QuiltCase, context: DecisionContext): Promise<Decision> {
  const decision = decideQuick(quiltCase, context);
  await confirm(decision, context);
  return decision;
}
