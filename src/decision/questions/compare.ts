import type { Answer, AnswerEstimates, Reason, Said } from '../answer-model.ts';
import { reasonsMissing } from '../reasons.ts';
import type { Verdict } from '../verdict.ts';

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
  /** Where the treatment is another: why the earlier one is no longer recommended. */
  readonly no_longer: string | null;
  /** Conditions and cautions that hold on one side alone. */
  readonly conditions_gained: readonly Said[];
  readonly conditions_lost: readonly Said[];
  /** True where answer, reasons, conditions and estimates are the same on both sides. */
  readonly same: boolean;
}

/** What turning some findings does to an answer. */
export function compareAnswers(before: Answer, after: Answer, changes: Comparison['changes']): Comparison {
  const side = ({ standing, treatment, provisional, estimates }: Answer): Comparison['before'] => ({
    standing,
    treatment,
    provisional,
    estimates,
  });
  const sides = { before: side(before), after: side(after) };
  const found = {
    gained: reasonsMissing(after.reasons, before.reasons),
    lost: reasonsMissing(before.reasons, after.reasons),
    conditions_gained: saidMissing(after, before),
    conditions_lost: saidMissing(before, after),
  };
  const same =
    JSON.stringify(sides.before) === JSON.stringify(sides.after) &&
    Object.values(found).every((list) => list.length === 0);
  return { changes, ...sides, ...found, no_longer: noLonger(before, after), same };
}

const noLonger = ({ treatment }: Answer, after: Answer): string | null =>
  after.rather_than.find((each) => each.treatment === treatment)?.sentence ?? null;

const saidMissing = (from: Answer, to: Answer): Said[] => {
  const [ours, theirs] = [from, to].map(({ conditions, cautions }) => [...conditions, ...cautions]);
  return (ours ?? []).filter(({ text }) => theirs?.some((said) => said.text === text) !== true);
};
