import type { Problem } from '../../problems/problem.ts';
import type { Path } from '../../source/source.ts';
import { notedAt } from '../hazards.ts';
import type { Followup, OPENINGS, QuiltCase } from '../model.ts';
import { LAYOUT_RULES } from '../positions.ts';
import type { Check } from './check.ts';

/** More than this in one line of the log is rarely one day's work. */
const LONG_DAY = 16;

/** Units and joins the quilt has, where layout or counts tell. */
const extent = ({ quilt, survey }: QuiltCase): { units?: number; joins?: number } => {
  const { layout } = quilt;
  const ofLayout = layout?.kind === 'survey grid' ? undefined : layout;
  const units =
    survey.counts?.of ?? (ofLayout && LAYOUT_RULES[ofLayout.kind].rows(ofLayout).reduce((a, b) => a + b, 0));
  const joins = ofLayout && LAYOUT_RULES[ofLayout.kind].joins(ofLayout);
  return { ...(units === undefined ? {} : { units }), ...(joins === undefined ? {} : { joins }) };
};

/** What there is of each thing that can come open. New work may hold any number of new joins. */
const THINGS: Readonly<
  Record<(typeof OPENINGS)[number], { of: 'units' | 'joins' | undefined; said: string }>
> = {
  old_cloth: { of: 'units', said: 'new openings in old cloth' },
  old_joins: { of: 'joins', said: 'old joins newly open' },
  junctions: { of: 'joins', said: 'joins of old and new come open' },
  new_work: { of: undefined, said: 'openings in new work' },
};

/** Follow-ups come after the work, in their order, and count no more than the quilt has. */
export const checkFollowups: Check = ({ source, quiltCase }) => {
  const problems: Problem[] = [];
  const { followups = [], completed, opened, log = [] } = quiltCase;
  const report = (code: Problem['code'], path: Path, what: string, more: Partial<Problem> = {}): void => {
    problems.push({ code, severity: 'error', what, place: source.place(path), ...more });
  };
  if (followups.length > 0 && completed === undefined) {
    report('missing-key', ['followups'], 'there is a follow-up, but nothing says when the work was done', {
      why: 'How long the repair has held is reckoned from the day it was finished.',
      cure: 'Add the line completed: { on: 2026-05-14 } with the day the work was finished.',
    });
  }
  if (completed !== undefined && opened !== undefined && completed.on < opened) {
    report(
      'dates-disagree',
      ['completed', 'on'],
      `the work was done (${completed.on}) before the case was opened (${opened})`,
    );
  }
  const has = extent(quiltCase);
  let before: string | undefined;
  for (const [index, followup] of followups.entries()) {
    const path: Path = ['followups', index];
    if (completed !== undefined && followup.on < completed.on) {
      report(
        'dates-disagree',
        [...path, 'on'],
        `this follow-up (${followup.on}) comes before the work was done (${completed.on})`,
      );
    } else if (before !== undefined && followup.on <= before) {
      report(
        'dates-disagree',
        [...path, 'on'],
        `this follow-up (${followup.on}) does not come after the one before it (${before})`,
        {
          cure: 'Put follow-ups in the order of their days; write what was seen on one day as one follow-up.',
        },
      );
    }
    problems.push(...oftenWashed(followup, before ?? completed?.on, path, source.place));
    before = followup.on;
    problems.push(...tooMany(followup, has, [...path, 'openings'], source.place));
  }
  for (const [index, { on, hours }] of log.entries()) {
    if (hours > LONG_DAY) {
      report('suspicious', ['log', index, 'hours'], `${hours} hours in one line of the log`, {
        severity: 'warning',
      });
    }
    if (on !== undefined && opened !== undefined && on < opened) {
      const what = `work was logged on ${on}, before the case was opened (${opened})`;
      report('dates-disagree', ['log', index, 'on'], what, { severity: 'warning' });
    }
  }
  return problems;
};

const DAYS_A_WEEK = 7;

/** A quilt washed every week is worn out in three years: more than that is more often a slip. */
const oftenWashed = (
  { on, washings = 0 }: Followup,
  since: string | undefined,
  path: Path,
  place: (path: Path) => Problem['place'] & {},
): Problem[] => {
  if (since === undefined || on <= since) return [];
  const weeks = (Date.parse(on) - Date.parse(since)) / (DAYS_A_WEEK * 24 * 3_600_000);
  if (washings <= Math.ceil(weeks)) return [];
  const what = `${washings} washings since ${since} are more than one a week`;
  const cure = 'Count the washings since the follow-up before, not those of its whole life.';
  return [{ code: 'suspicious', severity: 'warning', what, cure, place: place([...path, 'washings']) }];
};

const tooMany = (
  { openings = {} }: Followup,
  has: { units?: number; joins?: number },
  path: Path,
  place: (path: Path) => Problem['place'] & {},
): Problem[] =>
  Object.entries(THINGS).flatMap(([name, { of, said }]): Problem[] => {
    const counted = openings[name as (typeof OPENINGS)[number]] ?? 0;
    const most = of === undefined ? undefined : has[of];
    if (of === undefined || most === undefined || counted <= most) return [];
    return [
      {
        code: 'sum-mismatch',
        severity: 'error',
        what: `${counted} ${said}, but this quilt has ${most} ${of} in all`,
        cure: 'Count again; a count is of places that came open since the last follow-up.',
        place: place([...path, name]),
      },
    ];
  });

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

/** What was done about a hazard answers one that was noted, and not before it was. */
export const checkTreated: Check = ({ source, quiltCase }) =>
  (quiltCase.treated ?? []).flatMap(({ hazard, on, found }, index, all): Problem[] => {
    const noted = notedAt(quiltCase, hazard);
    const name = hazard.replaceAll('_', ' ');
    // It may stand in a survey of somebody else, where nobody has looked for those.
    if (noted === undefined && quiltCase.elsewhere === undefined) return [];
    if (noted === undefined)
      return [
        {
          code: 'hazard-not-noted',
          severity: 'error',
          what: `${name} was dealt with on ${on}, but no look at this quilt notes any`,
          place: source.place(['treated', index, 'hazard']),
        },
      ];
    const same = all.findIndex((other) => other.hazard === hazard && other.on === on);
    if (same < index)
      return [
        {
          code: 'already-there',
          severity: 'error',
          what: `${name} is written down as dealt with on ${on} already: ${all[same]?.how}`,
          why: 'One thing done counts once, and of two accounts of it nobody could say which holds.',
          cure: 'Keep one of the two entries under "treated", or correct the date of one.',
          place: source.place(['treated', index]),
        },
      ];
    if (hazard === 'poison' && found === undefined)
      return [
        {
          code: 'missing-key',
          severity: 'warning',
          what: 'poison was tested for, but nothing says what was found, so the stop stays',
          cure: 'Add found: harmless or found: present.',
          place: source.place(['treated', index]),
        },
      ];
    const { first } = noted;
    if (first.on === undefined || on >= first.on) return [];
    return [
      {
        code: 'dates-disagree',
        severity: 'error',
        what: `${name} was dealt with on ${on}, before it was first noted on ${first.on}`,
        why: 'What was done before a hazard was seen cannot have removed it.',
        place: source.place(['treated', index, 'on']),
      },
    ];
  });
