import { standingLooks } from '../../casebook/hazards.ts';
import { HAZARDS, type Hazard } from '../../casebook/scales.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { appendEntry, openCase } from '../../store/case-store.ts';
import { openStudio } from '../../store/studio.ts';
import { tellProblems } from '../../store/terminal.ts';
import { type Action, studioOptions, type Typed, textOption } from '../command.ts';
import { dayOf } from './rules/rule-file.ts';

/** Options that must be given, as they are typed and as the case file has them. */
const NEEDED = [
  ['hazard', '--hazard', 'hazard'],
  ['how', '--how', 'how'],
  ['by', '--by', 'by'],
  ['confirmedBy', '--confirmed-by', 'confirmed_by'],
] as const;

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const opened = await openCase(typed.args[0] ?? '', studio);
  const entry = { ...entryOf(typed), on: dayOf(typed, terminal) };
  if (entry.on > terminal.today())
    throw refusal({
      code: 'bad-date',
      what: `${entry.on} has not come yet`,
      why: 'A stop is lifted by what was done, not by what is planned.',
      cure: 'Write it down on the day it is done and confirmed.',
    });
  tellProblems(await appendEntry(opened, { list: 'treated', entry }, studio, terminal), terminal);
  if (typed.options.json === true)
    terminal.out(
      JSON.stringify({ schema: 'mendwise/treated@1', case: opened.case.case, treated: entry }, null, 2),
    );
  else
    terminal.err(
      `Written to ${opened.case.case}: ${entry.hazard} dealt with on ${entry.on}, confirmed by ${entry.confirmed_by}.`,
    );
  const now = await openCase(opened.path, studio);
  for (const look of standingLooks(now.case, entry.hazard as Hazard).slice(-1))
    terminal.err(
      `Note: the stop still holds. It was noted ${look.on === undefined ? 'at a look without a day' : `on ${look.on}`}, and ${entry.on} does not come after that. Once something is done after that look and confirmed, write it down with its own day.`,
    );
  return 0;
};

function entryOf(typed: Typed) {
  const given = NEEDED.map(([option, flag, name]) => ({
    flag,
    name,
    text: textOption(typed, option)?.trim(),
  }));
  const missing = given.filter(({ text }) => text === undefined || text === '').map(({ flag }) => flag);
  if (missing.length > 0)
    throw refusal({
      code: 'usage',
      what: `${missing.join(' and ')} ${missing.length === 1 ? 'is' : 'are'} missing`,
      why: 'A stop keeps people from harm. It is lifted only by something that was done, by somebody, and that somebody else confirms.',
      cure: `Give all of ${NEEDED.map(([, flag]) => flag).join(', ')}. Hazards are ${HAZARDS.join(', ')}.`,
    });
  const [hazard, how, by, confirmed_by] = given.map(({ text }) => text ?? '');
  return { hazard, how, by, confirmed_by };
}

const refusal = (problem: Omit<Problem, 'severity'>): ProblemError =>
  new ProblemError([{ severity: 'error', ...problem }]);
