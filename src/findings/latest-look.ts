import type { Family, JoinSurvey, Quilt, QuiltCase, Resurvey, Survey } from '../casebook/model.ts';

export type Seen = Survey['seen'];

/** A case as its latest looks leave it, and how the cloth of each part was seen when its grade was stated. */
export interface LatestLook {
  readonly case: QuiltCase;
  readonly opened: boolean;
  readonly gradeSeen: {
    readonly backing: Seen;
    readonly binding: Seen;
    readonly families: Readonly<Record<string, Seen>>;
  };
}

type Parts = Partial<Quilt>;

/** Groups such as `backing` are merged line by line: a look that states the damage does not unsay the grade. */
const mergedParts = (before: Quilt, after: Parts): Quilt => ({
  ...before,
  ...after,
  ...(after.made && { made: { ...before.made, ...after.made } }),
  ...(after.batting && { batting: { ...before.batting, ...after.batting } }),
  ...(after.backing && { backing: { ...before.backing, ...after.backing } }),
  ...(after.binding && { binding: { ...before.binding, ...after.binding } }),
  ...(after.joining && { joining: { ...before.joining, ...after.joining } }),
  ...(after.sewn && { sewn: { ...before.sewn, ...after.sewn } }),
});

/** A count replaces an older map and a map an older count: both say the same thing, and the later look holds. */
const looked = (survey: Survey, look: Resurvey): Survey => {
  const { quilt: _quilt, opened: _opened, findings, families, joins, ...rest } = look;
  const { units, counts, ...kept } = survey;
  const restated = rest.units !== undefined || rest.counts !== undefined;
  return {
    ...kept,
    ...(restated ? {} : { ...(units && { units }), ...(counts && { counts }) }),
    ...rest,
    ...(joins && { joins: recountedJoins(survey.joins, joins) }),
    findings: { ...survey.findings, ...findings },
    ...(survey.families || families ? { families: mergedFamilies(survey.families, families) } : {}),
  };
};

/** Joins counted or listed anew stand for themselves; causes found later are added to the count they explain. */
const recountedJoins = (before: JoinSurvey | undefined, after: JoinSurvey): JoinSurvey => {
  const anew = after.inspected !== undefined || after.open !== undefined || after.open_at !== undefined;
  const inspected = after.inspected ?? before?.inspected;
  return anew ? { ...(inspected === undefined ? {} : { inspected }), ...after } : { ...before, ...after };
};

const mergedFamilies = (
  before: Survey['families'] = {},
  after: Survey['families'] = {},
): Readonly<Record<string, Family>> => ({
  ...before,
  ...Object.fromEntries(
    Object.entries(after).map(([letter, family]) => [letter, { ...before[letter], ...family }]),
  ),
});

/** Applies the later looks in their order. Applying them again changes nothing. */
export const latestLook = (found: QuiltCase): LatestLook => {
  let survey = found.survey;
  let quilt: Quilt = found.quilt;
  let opened = found.survey.findings.opened === true;
  let backing: Seen = survey.seen;
  let binding: Seen = survey.seen;
  const families: Record<string, Seen> = {};
  for (const letter of Object.keys(survey.families ?? {})) families[letter] = survey.seen;
  for (const look of found.resurveys) {
    const seen = look.seen ?? survey.seen;
    const parts: Parts = look.quilt ?? {};
    if (parts.backing?.fragility !== undefined) backing = seen;
    if (parts.binding?.fragility !== undefined) binding = seen;
    for (const [letter, family] of Object.entries(look.families ?? {})) {
      if (family.fragility !== undefined || !(letter in families)) families[letter] = seen;
    }
    survey = looked(survey, look);
    quilt = mergedParts(quilt, parts);
    opened = look.opened ?? (look.findings?.opened === true || opened);
  }
  return { case: { ...found, survey, quilt }, opened, gradeSeen: { backing, binding, families } };
};
