import type { Problem } from '../../problems/problem.ts';
import type { Path } from '../../source/source.ts';
import type { Check } from './check.ts';

/** The quilt is older than its repair, and things happen in the order they are written. */
export const checkDates: Check = ({ source, quiltCase }) => {
  const problems: Problem[] = [];
  const { opened, quilt, survey, resurveys, approved } = quiltCase;
  const first = opened ?? survey.on;
  const about = quilt.made?.about;
  if (first !== undefined && about !== undefined && about > Number(first.slice(0, 4))) {
    const what = `the quilt was made about ${about}, after it came in (${first})`;
    problems.push({
      code: 'dates-disagree',
      severity: 'error',
      what,
      place: source.place(['quilt', 'made', 'about']),
    });
  }
  let latest: { name: string; on: string } | undefined =
    opened === undefined ? undefined : { name: 'opened', on: opened };
  const follow = (name: string, on: string | undefined, path: Path, moves: boolean): void => {
    if (on === undefined) return;
    if (latest && on < latest.on) {
      const what = `${name} (${on}) comes before ${latest.name} (${latest.on})`;
      problems.push({ code: 'dates-disagree', severity: 'warning', what, place: source.place(path) });
    }
    if (moves && (!latest || on > latest.on)) latest = { name, on };
  };
  follow('approved', approved?.on, ['approved', 'on'], false);
  follow('the survey', survey.on, ['survey', 'on'], true);
  for (const [index, resurvey] of resurveys.entries()) {
    follow(`resurvey ${index + 1}`, resurvey.on, ['resurveys', index, 'on'], true);
  }
  return problems;
};
