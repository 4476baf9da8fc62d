import { editCase } from '../casebook/edit-case.ts';
import type { RecordedDecision } from '../casebook/model.ts';
import { saveText } from '../casebook/save-text.ts';
import type { Decision } from '../decision/decide.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { type Typed, textOption } from './command.ts';
import type { OpenCase } from './open-case.ts';
import { STANDING_WORDS, TREATMENT_WORDS } from './print/labels.ts';
import { keepSnapshots, recordedPractice } from './records.ts';
import type { Studio } from './studio.ts';
import { takenFrom } from './taken-choice.ts';
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
  const taken = takenFrom(typed, decision);
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
  const what = chosen ?? treatment;
  const words = what === undefined ? STANDING_WORDS[standing ?? 'go_ahead'] : TREATMENT_WORDS[what];
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
