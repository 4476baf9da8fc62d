import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { currentCase, inOrder } from '../../casebook/current-case.ts';
import type { Edit } from '../../casebook/edit-case.ts';
import type { QuiltCase } from '../../casebook/model.ts';
import { writeUnits } from '../../casebook/positions.ts';
import { contextOf } from '../../decision/context.ts';
import { decideQuick } from '../../decision/decide.ts';
import { type Answers, answerAt, isGroup } from '../../interview/answers.ts';
import { answersFromOptions } from '../../interview/answers-from-options.ts';
import { type ChangedSquare, isSquare, withSquares, writeFurther } from '../../interview/squares.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import { appendEntry, given, openCase } from '../../store/case-store.ts';
import { relativeName, type Studio } from '../../store/studio.ts';
import { type Terminal, tellProblems } from '../../store/terminal.ts';
import { type ExitCode, listOption, type Typed, textOption } from '../command.ts';
import { dayOf } from './rules/rule-file.ts';
import { whereItStands } from './run-interview.ts';

/** Whether what was typed is a look after the first: squares that are otherwise, a quilt that was opened, or another day. */
export const isFurtherLook = (typed: Typed): boolean =>
  typed.options.opened === true ||
  textOption(typed, 'on') !== undefined ||
  listOption(typed, 'set').some(isSquare);

const refuse = (problem: Omit<Problem, 'severity'>): never => {
  throw new ProblemError([{ severity: 'error', ...problem }]);
};

/** Writes a look after the first one from what was typed: which squares, what now, what else was found, photographs. */
export const furtherLook = async (
  typed: Typed,
  terminal: Terminal,
  studio: Studio,
  name: string,
): Promise<ExitCode> => {
  const opened = await openCase(join(studio.casesFolder, `${name}.yaml`), studio);
  const on = dayOf(typed, terminal);
  refuseBefore(opened.case, on, terminal.today());
  const settings = listOption(typed, 'set');
  const squares = settings.filter(isSquare);
  const others = settings.filter((setting) => !isSquare(setting));
  const found = await answersFromOptions(
    { from: textOption(typed, 'from'), settings: others },
    studio.knowledge.vocabulary,
  );
  const { changed: told, ...map } = squaresOf(squares, opened.case);
  const changed = told.filter(({ from, to }) => from.join() !== to.join());
  const inside = typed.options.opened === true;
  const entry = given({
    on,
    by: textOption(typed, 'by'),
    ...(inside ? { seen: 'in hand', opened: 'yes' } : {}),
    ...statedIn(found),
    ...(changed.length === 0 ? {} : map),
  });
  const photos = photoEdits(typed, opened.case, told, inside);
  if (Object.keys(entry).every((key) => key === 'on' || key === 'by') && photos.length === 0)
    refuse({
      code: 'usage',
      what: `this further look says nothing new${told.length === 0 ? '' : `: ${told.map(({ at, to }) => `${at} is ${to.join(' and ')} already`).join(', ')}`}`,
      why: 'A look that states nothing changes nothing, and is more often a slip.',
      cure: 'Say what was seen: --set B3=x for a square, --set damp=yes for a finding, or --opened.',
    });
  tellProblems(
    await appendEntry(opened, { list: 'resurveys', entry, before: photos }, studio, terminal),
    terminal,
  );
  for (const file of listOption(typed, 'photo'))
    if (!existsSync(resolve(dirname(opened.path), file)))
      terminal.err(
        `Note: ${file} is not there yet. Put it into the folder of the case, or papers will say it is missing.`,
      );
  const { case: now } = await openCase(opened.path, studio);
  const { answer } = decideQuick(now, contextOf(studio, terminal.today()));
  terminal.out(
    [
      `A further look on ${on}, written to ${relativeName(opened.path)}.`,
      ...changed.map(({ at, from, to }) => `  ${at}: ${from.join(' and ')} before, ${to.join(' and ')} now`),
      ...whereItStands(answer, terminal),
      '',
      `Next: mendwise decide ${name}`,
      // The client agreed to something else, and has to be asked again.
      ...(opened.case.approved === undefined
        ? []
        : [`For the client to approve: mendwise sheet ${name} --kind change`]),
    ].join('\n'),
  );
  return 0;
};

/** A look after the first cannot come before it, nor before one that is written down, nor be still to come. */
function refuseBefore({ survey, resurveys }: QuiltCase, on: string, today: string): void {
  const last = inOrder(resurveys).at(-1)?.on ?? survey.on;
  const cure = 'Give the day of the look with --on, or correct the day in the case file.';
  if (on > today) refuse({ code: 'bad-date', what: `--on is ${on}, which has not come yet`, cure });
  if (last !== undefined && on < last)
    refuse({
      code: 'bad-date',
      what: `a further look on ${on} would come before the one on ${last}`,
      why: 'Each look overrides those before it, so the older one would hold.',
      cure,
    });
}

function squaresOf(
  squares: readonly string[],
  quiltCase: QuiltCase,
): { changed: readonly ChangedSquare[]; units?: string; also?: readonly string[] | undefined } {
  if (squares.length === 0) return { changed: [] };
  const { units, also = [] } = currentCase(quiltCase).survey;
  if (units === undefined)
    return refuse({
      code: 'no-such-position',
      what: `${quiltCase.case} has no map of its squares yet, so ${squares.join(', ')} has no place`,
      why: 'A further look corrects the first one; it cannot stand in for it.',
      cure: `Take the map first: mendwise survey ${quiltCase.case}`,
    });
  const result = withSquares(squares, { units, also });
  if ('problems' in result) throw new ProblemError(result.problems);
  return { changed: result.changed, units: writeUnits(result.units), also: writeFurther(result.also) };
}

/** What was found besides the squares, as a later look states it: without the word survey, the quilt under its own. */
function statedIn({ survey, quilt, ...others }: Answers): Answers {
  const [strange] = Object.keys(others);
  if (strange !== undefined)
    refuse({
      code: 'unknown-key',
      what: `${strange} is no part of a further look`,
      cure: 'State what the client wishes by itself, without squares and without --opened.',
    });
  return { ...(isGroup(survey) ? survey : {}), ...(quilt === undefined ? {} : { quilt }) };
}

/** Photographs beside the look: of the square, where one was changed. */
function photoEdits(
  typed: Typed,
  { photos }: QuiltCase,
  changed: readonly ChangedSquare[],
  inside: boolean,
): Edit[] {
  const of = changed.length === 0 ? undefined : changed.map(({ at }) => at).join(', ');
  const added = listOption(typed, 'photo').map((file) =>
    given({ file, of, when: inside ? 'opened' : 'during' }),
  );
  if (added.length === 0) return [];
  if (photos.length === 0) return [{ path: ['photos'], value: added }];
  return added.map((value, index) => ({ path: ['photos', photos.length + index], value }));
}

/** Whether a later look states what stands at a path of the first survey, and would go on to hold. */
export const laterSays = (
  { resurveys }: QuiltCase,
  path: readonly (string | number)[],
): string | undefined => {
  const inLook = path[0] === 'survey' ? path.slice(1) : path;
  return inOrder(resurveys).findLast((look) => answerAt(look, inLook) !== undefined)?.on;
};
