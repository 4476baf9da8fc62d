import { editCase } from '../../casebook/edit-case.ts';
import type { RecordedDecision } from '../../casebook/model.ts';
import { TREATMENTS, type Treatment } from '../../casebook/scales.ts';
import { overridesOf } from '../../decision/choice.ts';
import type { Decision } from '../../decision/decide.ts';
import { sayRecommendation, TREATMENT_WORDS } from '../../decision/words.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import type { OpenCase } from '../../store/case-store.ts';
import { keepSnapshots, recordedPractice } from '../../store/decision-records.ts';
import { saveText } from '../../store/save-text.ts';
import type { Studio } from '../../store/studio.ts';
import type { Terminal } from '../../store/terminal.ts';
import { type Typed, textOption } from '../command.ts';

/**
 * Writes a decision into its case, with snapshots of the rules and the case it was made from. `--record` records the
 * recommendation, `--choose TREATMENT` the practitioner's own, `--client chose TREATMENT` the client's.
 * Returns the message for the person at the keyboard.
 */
export async function recordDecision(
  typed: Typed,
  { opened, decision }: { readonly opened: OpenCase; readonly decision: Decision },
  studio: Studio,
  terminal: Terminal,
): Promise<string> {
  const { answer } = decision;
  const taken = readDecisionOptions(typed, decision);
  const by = textOption(typed, 'by');
  const findings = await keepSnapshots(opened.path, opened.source.text, studio);
  const entry: RecordedDecision = {
    on: answer.as_of,
    ...(by === undefined ? {} : { by }),
    standing: answer.standing,
    ...(answer.treatment === null ? {} : { treatment: answer.treatment }),
    ...taken,
    rulebook: answer.rulebook.digest,
    findings,
    practice: recordedPractice(studio.practice),
  };
  const { length } = opened.case.decisions ?? [];
  // An entry of its own, so that what stands there already, comments and all, is not written anew.
  const edit =
    length === 0 ? { path: ['decisions'], value: [entry] } : { path: ['decisions', length], value: entry };
  const text = editCase(opened.source, [edit]);
  await saveText(opened.path, text, { expected: opened.source.text, stamp: terminal.stamp() });
  return said(entry, opened.case.case, studio);
}

/** What was recorded, in words: whose choice, and against which rules, by title and name. */
function said(
  { kind, chosen, treatment, standing, overrides = [] }: RecordedDecision,
  name: string,
  studio: Studio,
) {
  const advised = sayRecommendation({ standing: standing ?? 'go_ahead', treatment: treatment ?? null }, ': ');
  const words = chosen === undefined ? advised : TREATMENT_WORDS[chosen];
  const rules = studio.knowledge.rulebook.rules;
  const against = overrides.map((id) => {
    const title = rules.find((rule) => rule.id === id)?.title;
    return title === undefined ? id : `"${title.toLowerCase()}" (${id})`;
  });
  const who = kind === 'client' ? "the client's choice: " : kind === 'otherwise' ? 'your choice: ' : '';
  return `Recorded in ${name}: ${who}${words}${against.length === 0 ? '' : `, against ${against.join(' and ')}`}.`;
}

/** The decision to make again: the last recorded, or the one of a number (1 first) or a date. */
export function chosenRecord(opened: OpenCase, which: unknown): RecordedDecision {
  const all = opened.case.decisions ?? [];
  const found =
    typeof which !== 'string'
      ? all.at(-1)
      : /^\d{1,3}$/.test(which)
        ? all[Number(which) - 1]
        : all.findLast(({ on }) => on === which);
  if (found !== undefined) return found;
  const problem: Problem = {
    code: 'nothing-recorded',
    severity: 'error',
    what:
      all.length === 0
        ? `${opened.case.case} has no recorded decision`
        : `${opened.case.case} has no recorded decision ${String(which)}`,
    ...(all.length === 0
      ? {}
      : {
          why: 'Recorded decisions are called by their number, the first being 1, or by their day.',
          cure: `Write --as-recorded with one of: ${all.map(({ on }, index) => `${index + 1} (${on})`).join(', ')}.`,
        }),
  };
  throw new ProblemError([problem]);
}

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
export function readDecisionOptions(typed: Typed, decision: Decision): Taken {
  const { client } = typed.options;
  const choose = textOption(typed, 'choose');
  const because = typedText(typed, 'because');
  const riskNote = typedText(typed, 'riskNote');
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
function typedText(typed: Typed, name: string): string | undefined {
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
