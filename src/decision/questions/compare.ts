import type { Answer, AnswerEstimates, Reason } from '../answer-model.ts';
import type { Verdict } from './trials.ts';

/** Two answers side by side. */
export interface Comparison {
  readonly changes: readonly {
    readonly finding: string;
    readonly label: string;
    readonly from: string;
    readonly to: string;
  }[];
  readonly before: Verdict & { readonly provisional: boolean; readonly estimates: AnswerEstimates | null };
  readonly after: Verdict & { readonly provisional: boolean; readonly estimates: AnswerEstimates | null };
  /** Reasons that hold after and did not before, and the other way round. */
  readonly gained: readonly Reason[];
  readonly lost: readonly Reason[];
}

/** What turning some findings does to an answer. */
export function compareAnswers(before: Answer, after: Answer, changes: Comparison['changes']): Comparison {
  const missing = (from: Answer, to: Answer): Reason[] =>
    from.reasons.filter(({ rule }) => !to.reasons.some((reason) => reason.rule === rule));
  const side = ({ standing, treatment, provisional, estimates }: Answer): Comparison['before'] => ({
    standing,
    treatment,
    provisional,
    estimates,
  });
  return {
    changes,
    before: side(before),
    after: side(after),
    gained: missing(after, before),
    lost: missing(before, after),
  };
}
