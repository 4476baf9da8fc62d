import type { RecordedDecision } from '../casebook/model.ts';
import { TREATMENTS, type Treatment } from '../casebook/scales.ts';
import { overridesOf } from '../decision/choice.ts';
import type { Decision } from '../decision/decide.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { suggest } from '../source/suggest.ts';
import { type Typed, textOption } from './command.ts';

/** Options that write a decision into the case; one at a time. */
const RECORDING = [
  ['record', '--record'],
  ['choose', '--choose'],
  ['client', '--client'],
] as const;
/** Options that say more of a decision that is recorded. */
const TELLING = [
  ['because', '--because'],
  ['riskNote', '--risk-note'],
  ['by', '--by'],
] as const;

const isGiven = (typed: Typed, name: string): boolean => typed.options[name] !== undefined;

const refusal = (what: string, why: string, cure: string): ProblemError =>
  new ProblemError([{ code: 'usage', severity: 'error', what, why, cure }]);

/**
 * Whether a decision is to be recorded. Throws ProblemError `usage` where options contradict each other, or tell
 * more of a decision that nobody asked to record: a reason that is typed must not get lost.
 */
export function wantsRecord(typed: Typed): boolean {
  const asked = RECORDING.filter(([name]) => isGiven(typed, name)).map(([, flag]) => flag);
  const told = TELLING.filter(([name]) => isGiven(typed, name)).map(([, flag]) => flag);
  if (asked.length > 1)
    throw refusal(
      `${asked.join(' and ')} were given together`,
      'Each records a decision of its own, and one must not pass for the other.',
      'Record them one after the other.',
    );
  if (typed.options.asRecorded !== undefined && asked.length + told.length > 0)
    throw refusal(
      `--as-recorded and ${[...asked, ...told].join(' and ')} were given together`,
      'A decision made again as it was is read, never written.',
      'Leave out one of them.',
    );
  if (asked.length === 0 && told.length > 0)
    throw refusal(
      `${told.join(' and ')} ${told.length === 1 ? 'was' : 'were'} given, but nothing is recorded`,
      'Without a decision to record, what was typed would be lost.',
      'Add --record, --choose TREATMENT or --client chose TREATMENT.',
    );
  return asked.length > 0;
}

export type Taken = Pick<
  RecordedDecision,
  'kind' | 'chosen' | 'because' | 'overrides' | 'risk_note' | 'shown'
>;

/** What is taken beside the recommendation, from the options typed. Throws ProblemError where it cannot be chosen so. */
export function takenFrom(typed: Typed, decision: Decision): Taken {
  const { client } = typed.options;
  const choose = textOption(typed, 'choose');
  const because = said(typed, 'because');
  const riskNote = said(typed, 'riskNote');
  const told = {
    ...(because === undefined ? {} : { because }),
    ...(riskNote === undefined ? {} : { risk_note: riskNote }),
  };
  if (client === undefined && choose === undefined) return { kind: 'recommended', ...told };
  const words = Array.isArray(client) ? client : [client];
  const treatment = treatmentNamed(choose ?? words.filter((each) => each !== 'chose').join(' '));
  const result = overridesOf({ treatment, because, riskNote }, decision);
  if ('problems' in result) throw new ProblemError(result.problems);
  refuseUnanswered(decision);
  const overrides = result.overrides.map(({ id }) => id);
  const { standing, treatment: advised, options } = decision.answer;
  const agrees = standing === 'go_ahead' && treatment === advised;
  return {
    kind: choose === undefined ? 'client' : agrees ? 'recommended' : 'otherwise',
    chosen: treatment,
    ...told,
    ...(overrides.length === 0 ? {} : { overrides }),
    ...(choose === undefined ? { shown: options.map((option) => option.treatment) } : {}),
  };
}

/** Nobody can agree to work on a quilt of which nobody knows whether it is safe to touch. */
function refuseUnanswered({ answer }: Decision): void {
  const { unanswered } = answer.safety;
  if (unanswered.length === 0) return;
  throw new ProblemError([
    {
      code: 'safety-unanswered',
      severity: 'error',
      what: `Nobody has answered yet: ${unanswered.map(({ label }) => label).join('; ')}`,
    },
  ]);
}

/** A text with something in it. */
function said(typed: Typed, name: string): string | undefined {
  const text = textOption(typed, name)?.trim();
  return text === '' ? undefined : text;
}

function treatmentNamed(word: string): Treatment {
  const found = TREATMENTS.find((treatment) => treatment === word);
  if (found !== undefined) return found;
  const near = suggest(word, TREATMENTS);
  const problem: Problem = {
    code: 'not-an-option',
    severity: 'error',
    what: `"${word}" is not a treatment`,
    why: 'Choices are compared with what the rules recommend, so both need the same names.',
    cure: `Use one of: ${TREATMENTS.join(', ')}.`,
    ...(near === undefined ? {} : { didYouMean: near }),
  };
  throw new ProblemError([problem]);
}
