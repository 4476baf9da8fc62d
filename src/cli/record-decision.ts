import { editCase } from '../casebook/edit-case.ts';
import type { RecordedDecision } from '../casebook/model.ts';
import { saveText } from '../casebook/save-text.ts';
import { TREATMENTS, type Treatment } from '../casebook/scales.ts';
import { overridesOf } from '../decision/choice.ts';
import type { Decision } from '../decision/decide.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { suggest } from '../source/suggest.ts';
import { type Typed, textOption } from './command.ts';
import type { OpenCase } from './open-case.ts';
import { keepSnapshots, recordedPractice } from './records.ts';
import type { Studio } from './studio.ts';
import type { Terminal } from './terminal.ts';

/**
 * Writes a decision into its case, with snapshots of the rules and the case it was made from. `--record` records the
 * recommendation, `--choose TREATMENT` the practitioner's own, `--client chose TREATMENT` the client's.
 * Returns the message for the person at the keyboard.
 */
export async function recordDecision(
  typed: Typed,
  opened: OpenCase,
  studio: Studio,
  decision: Decision,
  terminal: Terminal,
): Promise<string> {
  const { answer } = decision;
  const taken = choiceOf(typed, decision);
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
  const entries = [...(opened.case.decisions ?? []), entry];
  const text = editCase(opened.source, [{ path: ['decisions'], value: entries }]);
  await saveText(opened.path, text, { expected: opened.source.text, stamp: terminal.stamp() });
  const what = entry.chosen ?? entry.treatment ?? answer.standing.replaceAll('_', ' ');
  const against =
    entry.overrides === undefined || entry.overrides.length === 0
      ? ''
      : `, against ${entry.overrides.join(', ')}`;
  return `Recorded in ${opened.case.case}: ${what}${against}.`;
}

type Taken = Pick<RecordedDecision, 'kind' | 'chosen' | 'because' | 'overrides' | 'risk_note' | 'shown'>;

function choiceOf(typed: Typed, decision: Decision): Taken {
  const client = typed.options.client;
  const choose = textOption(typed, 'choose');
  if (client === undefined && choose === undefined) return { kind: 'recommended' };
  const word =
    choose ?? (Array.isArray(client) ? client : [client]).filter((each) => each !== 'chose').join(' ');
  const treatment = treatmentNamed(word);
  const because = textOption(typed, 'because');
  const riskNote = textOption(typed, 'riskNote');
  const result = overridesOf({ treatment, because, riskNote }, decision);
  if ('problems' in result) throw new ProblemError(result.problems);
  const overrides = treatment === decision.answer.treatment ? [] : result.overrides.map(({ id }) => id);
  return {
    kind: choose === undefined ? 'client' : 'otherwise',
    chosen: treatment,
    ...(because === undefined ? {} : { because }),
    ...(overrides.length === 0 ? {} : { overrides }),
    ...(riskNote === undefined ? {} : { risk_note: riskNote }),
    ...(choose === undefined ? { shown: decision.answer.options.map((option) => option.treatment) } : {}),
  };
}

function treatmentNamed(word: string): Treatment {
  const found = TREATMENTS.find((treatment) => treatment === word);
  if (found !== undefined) return found;
  const near = suggest(word, TREATMENTS);
  throw new ProblemError([
    {
      code: 'not-an-option',
      severity: 'error',
      what: `"${word}" is not a treatment`,
      cure: `Use one of: ${TREATMENTS.join(', ')}.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  ]);
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
  };
  throw new ProblemError([problem]);
}
