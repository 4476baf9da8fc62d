import { standingLooks } from '../../casebook/hazards.ts';
import { HAZARDS, type Hazard } from '../../casebook/scales.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { appendEntry, openCase } from '../../store/case-store.ts';
import { openStudio } from '../../store/studio.ts';
import { tellProblems } from '../../store/terminal.ts';
import { type Action, studioOptions, type Typed, textOption } from '../command.ts';
import { dayOf } from './rules/rule-file.ts';

/** Options that must be given, and how they are typed. */
const NEEDED = [
  ['hazard', '--hazard'],
  ['how', '--how'],
  ['by', '--by'],
  ['confirmedBy', '--confirmed-by'],
] as const;

export const action: Action = async (typed, terminal) => {
  const studio = await openStudio(studioOptions(typed));
  const opened = await openCase(typed.args[0] ?? '', studio);
  const entry: Entry = { ...entryOf(typed), on: dayOf(typed, terminal) };
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
  else terminal.err(`Written to ${opened.case.case}: ${sayEntry(entry)}`);
  if (entry.found === 'present') return 0;
  const now = await openCase(opened.path, studio);
  for (const look of standingLooks(now.case, entry.hazard as Hazard).slice(-1))
    terminal.err(
      `Note: the stop still holds. It was noted ${look.on === undefined ? 'at a look without a day' : `on ${look.on}`}, and ${entry.on} does not come after that. Once something is done after that look and confirmed, write it down with its own day.`,
    );
  return 0;
};

const sayEntry = ({ hazard, on, confirmed_by, found }: Entry): string =>
  found === 'present'
    ? `${hazard} was found on ${on}, by ${confirmed_by}. That lifts nothing: the stop and its cautions stay.`
    : `${hazard} dealt with on ${on}, confirmed by ${confirmed_by}.`;

type Entry = ReturnType<typeof entryOf> & { readonly on: string };

function entryOf(typed: Typed) {
  const given = NEEDED.map(([option, flag]) => ({ flag, text: textOption(typed, option)?.trim() }));
  const [hazard = '', how = '', by = '', confirmed_by = ''] = given.map(({ text }) => text);
  const found = textOption(typed, 'found')?.trim();
  // Poison is only ever tested for, so what the test found is the whole of it.
  const all = [...given, ...(hazard === 'poison' ? [{ flag: '--found', text: found }] : [])];
  const missing = all.filter(({ text }) => text === undefined || text === '').map(({ flag }) => flag);
  if (missing.length > 0)
    throw refusal({
      code: 'usage',
      what: `${missing.join(' and ')} ${missing.length === 1 ? 'is' : 'are'} missing`,
      why: 'A stop keeps people from harm. It is lifted only by something that was done, by somebody, and that somebody else confirms.',
      cure: `Give all of ${NEEDED.map(([, flag]) => flag).join(', ')}, and of poison --found harmless or --found present. Hazards are ${HAZARDS.join(', ')}.`,
    });
  return { hazard, how, by, confirmed_by, ...(found === undefined ? {} : { found }) };
}

const refusal = (problem: Omit<Problem, 'severity'>): ProblemError =>
  new ProblemError([{ severity: 'error', ...problem }]);
