import { readAnswer } from '../../findings/read-answer.ts';
import type { Vocabulary } from '../../findings/vocabulary.ts';
import type { Problem } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import type {
  Answer,
  AnswerEstimates,
  Reason,
  Recommendation,
  RuleText,
  SafetyStop,
} from '../answer-model.ts';
import { reasonsMissing } from '../reasons.ts';
import type { Change } from './counterfactuals.ts';
import type { CaseValue, Variable } from './variable.ts';

/** Two answers side by side. */
export interface Comparison {
  readonly changes: readonly {
    readonly finding: string;
    readonly label: string;
    readonly from: string;
    readonly to: string;
  }[];
  readonly before: Recommendation & {
    readonly provisional: boolean;
    readonly estimates: AnswerEstimates | null;
  };
  readonly after: Recommendation & {
    readonly provisional: boolean;
    readonly estimates: AnswerEstimates | null;
  };
  /** Reasons that hold after and did not before, and the other way round. */
  readonly gained: readonly Reason[];
  readonly lost: readonly Reason[];
  /** Where the treatment is another: why the earlier one is no longer recommended. */
  readonly no_longer: string | null;
  /** Stops for hazards that are noted and were only supposed away: they go on holding, whatever is supposed. */
  readonly still_stops: readonly SafetyStop[];
  /** Conditions and cautions that hold on one side alone; none is lost while such a stop goes on holding. */
  readonly conditions_gained: readonly RuleText[];
  readonly conditions_lost: readonly RuleText[];
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
  const stopped = before.safety.stops.filter(
    ({ hazard }) => !after.safety.stops.some((stop) => stop.hazard === hazard),
  );
  const found = {
    still_stops: stopped,
    gained: reasonsMissing(after.reasons, before.reasons),
    lost: reasonsMissing(before.reasons, after.reasons),
    conditions_gained: saidMissing(after, before),
    conditions_lost: stopped.length > 0 ? [] : saidMissing(before, after),
  };
  const same =
    JSON.stringify(sides.before) === JSON.stringify(sides.after) &&
    Object.values(found).every((list) => list.length === 0);
  return { changes, ...sides, ...found, no_longer: noLonger(before, after), same };
}

const noLonger = ({ treatment }: Answer, after: Answer): string | null =>
  after.rather_than.find((each) => each.treatment === treatment)?.sentence ?? null;

const saidMissing = (from: Answer, to: Answer): RuleText[] => {
  const [ours, theirs] = [from, to].map(({ conditions, cautions }) => [...conditions, ...cautions]);
  return (ours ?? []).filter(({ text }) => theirs?.some((said) => said.text === text) !== true);
};

/** Reads `finding=value` as a person types it: names as in the vocabulary, `A.fragility` for one fabric, `joins.open`, `lost`. */
export function readTurn(
  typed: string,
  variables: readonly Variable[],
  vocabulary: Vocabulary,
): { turn: Change } | { problem: Problem } {
  const at = typed.indexOf('=');
  const [id, raw] = at < 0 ? [typed, ''] : [typed.slice(0, at).trim(), typed.slice(at + 1).trim()];
  const variable = variables.find((each) => each.id === id);
  if (variable === undefined) {
    const near = suggest(
      id,
      variables.map((each) => each.id),
    );
    return {
      problem: {
        code: 'unknown-finding',
        severity: 'error',
        what: `there is no finding called "${id}" to change here`,
        why: 'What is supposed has to be something a case can say; what is worked out follows from it.',
        cure: 'Write finding=value, such as intended_use=storage or A.fragility=weak; "mendwise explain" lists the findings.',
        ...(near === undefined ? {} : { didYouMean: near }),
      },
    };
  }
  if (raw === '')
    return {
      problem: {
        code: 'usage',
        severity: 'error',
        what: `"${typed}" gives no value`,
        why: 'Without a value there is nothing to compare the case with.',
        cure: at < 0 ? `Write ${id}=value, with = between the two.` : `Write ${id}=value.`,
      },
    };
  const result = readValue(variable, raw, vocabulary);
  return 'problem' in result ? result : { turn: { variable, value: result.value } };
}

function readValue(
  variable: Variable,
  raw: string,
  vocabulary: Vocabulary,
): { value: CaseValue } | { problem: Problem } {
  const name = variable.id.includes('.') ? variable.id.slice(variable.id.indexOf('.') + 1) : variable.id;
  const isCount = variable.id === 'lost' || variable.id.startsWith('joins.');
  const def = isCount ? undefined : (vocabulary.findings.get(variable.id) ?? vocabulary.family.get(name));
  if (def === undefined) {
    const count = Number(raw);
    const most = variable.scale === undefined ? Number.MAX_SAFE_INTEGER : variable.most;
    if (Number.isInteger(count) && count >= 0 && count <= most) return { value: count };
    return {
      problem: {
        code: 'out-of-range',
        severity: 'error',
        what: `${variable.id} is a whole number from 0 to ${most}, not "${raw}"`,
        cure: `Write ${variable.id}=${Math.min(most, 3)}, say.`,
      },
    };
  }
  const reading = readAnswer(def, raw);
  if ('value' in reading) return { value: reading.value };
  if ('unknown' in reading)
    return {
      problem: {
        code: 'usage',
        severity: 'error',
        what: `"${raw}" is no value to suppose for ${variable.id}`,
        why: 'A finding is supposed to be something; what is not known is compared with nothing.',
        cure: `Give ${variable.id} a value, or leave it out of the case and decide again.`,
      },
    };
  return { problem: { severity: 'error', ...reading.problem } };
}
