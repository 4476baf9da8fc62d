import type { Edit } from '../../casebook/edit-case.ts';
import { dueFollowup, repairOutcome, sayOutcome } from '../../experience/due.ts';
import { ProblemError } from '../../problems/problem.ts';
import { appendEntry, given, openCase } from '../../store/case-store.ts';
import { openStudio } from '../../store/studio.ts';
import { tellProblems } from '../../store/terminal.ts';
import { type Action, listOption, studioOptions, type Typed, textOption } from '../command.ts';
import { tellHazard } from '../hazard.ts';

/** Options of a follow-up that are text in the case file, under the same or a longer name. */
const OPENINGS = {
  oldCloth: 'old_cloth',
  oldJoins: 'old_joins',
  junctions: 'junctions',
  newWork: 'new_work',
} as const;

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const opened = await openCase(typed.args[0] ?? '', studio);
  const { completed } = opened.case;
  const told = entryOf(typed);
  if (Object.keys(told).length === 0 && finishing(typed).length === 0) {
    const due = dueFollowup(opened.case, terminal.today(), studio.knowledge.figures);
    throw new ProblemError([
      {
        code: 'needs-terminal',
        severity: 'error',
        what: `nothing was said of how ${opened.case.case} has held`,
        why:
          due === undefined
            ? 'A follow-up with nothing in it tells nobody anything.'
            : `Its follow-up at ${due.months} months was due on ${due.on}.`,
        cure: 'Ask the client, then give what was told: --use, --washings, --old-cloth, --old-joins, --junctions, --new-work, --due, --choose-again. "mendwise followup --help" lists them.',
      },
    ]);
  }
  const done = finishing(typed);
  tellHazard(opened.case, studio, terminal);
  if (
    completed !== undefined &&
    typed.options.completed !== undefined &&
    typed.options.completed !== completed.on
  ) {
    throw new ProblemError([
      {
        code: 'already-there',
        severity: 'error',
        what: `the work is written down as done on ${completed.on}`,
        cure: 'Correct "completed" in the case file if that is wrong; nothing was written.',
      },
    ]);
  }
  if (Object.keys(told).length === 0) {
    // Only the end of the work was told: no follow-up comes with it.
    const { finishOnly } = await import('../../store/case-store.ts');
    await finishOnly(opened, done, studio, terminal);
    terminal.err(`Written: the work on ${opened.case.case} is done.`);
    return 0;
  }
  const entry = { on: textOption(typed, 'on') ?? terminal.today(), ...told };
  const warnings = await appendEntry(opened, { list: 'followups', entry, before: done }, studio, terminal);
  tellProblems(warnings, terminal);
  const { case: after } = await openCase(opened.path, studio);
  const outcome = repairOutcome(after);
  if (typed.options.json === true) {
    terminal.out(
      JSON.stringify(
        {
          schema: 'mendwise/followup@1',
          case: after.case,
          followup: after.followups?.at(-1),
          outcome: outcome ?? null,
        },
        null,
        2,
      ),
    );
  } else {
    terminal.err(
      `Written to ${after.case}: follow-up of ${entry.on}${outcome === undefined ? '' : `; ${sayOutcome(outcome)}`}.`,
    );
  }
  return 0;
};

/** Numbers stay text where they are none, so that the reader of the case can say what is wrong with them. */
const numeric = (text: string | undefined): number | string | undefined =>
  text === undefined || !/^-?\d+(\.\d+)?$/.test(text.trim()) ? text : Number(text);

const entryOf = (typed: Typed): Record<string, unknown> => {
  const openings = given(
    Object.fromEntries(
      Object.entries(OPENINGS).map(([option, name]) => [name, numeric(textOption(typed, option))]),
    ),
  );
  const photos = listOption(typed, 'photo');
  return given({
    by: textOption(typed, 'by'),
    seen: textOption(typed, 'seen'),
    use: textOption(typed, 'use'),
    washings: numeric(textOption(typed, 'washings')),
    washing: textOption(typed, 'washing'),
    openings: Object.keys(openings).length === 0 ? undefined : openings,
    repair_due: textOption(typed, 'due'),
    choose_again: textOption(typed, 'chooseAgain'),
    photos: photos.length === 0 ? undefined : photos,
    note: textOption(typed, 'note'),
  });
};

/** What was said of the end of the work itself. */
const finishing = (typed: Typed): Edit[] =>
  [
    { path: ['completed', 'on'], value: textOption(typed, 'completed') },
    { path: ['completed', 'treatment'], value: textOption(typed, 'treatment') },
    { path: ['completed', 'holes'], value: numeric(textOption(typed, 'holes')) },
  ].filter(({ value }) => value !== undefined);
