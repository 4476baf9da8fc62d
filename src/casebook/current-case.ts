import type { Family, Quilt, QuiltCase, Resurvey, Survey } from './model.ts';

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What `later` states, laid over `earlier`; groups merge line by line, lists and values are replaced. */
const laidOver = (earlier: unknown, later: unknown): unknown => {
  if (!isGroup(earlier) || !isGroup(later)) return later === undefined ? earlier : later;
  const merged: Record<string, unknown> = { ...earlier };
  for (const [name, value] of Object.entries(later)) merged[name] = laidOver(merged[name], value);
  return merged;
};

/** Undated looks keep their place after the one before them. */
export const inOrder = <Look extends { readonly on?: string }>(looks: readonly Look[]): Look[] => {
  let last = '';
  return looks
    .map((look) => {
      last = look.on ?? last;
      return { look, on: last };
    })
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
    .map(({ look }) => look);
};

const gradesCloth = ({ families = {}, quilt }: Resurvey): boolean =>
  Object.values(families).some((family: Family) => family.fragility !== undefined) ||
  quilt?.backing?.fragility !== undefined ||
  quilt?.binding?.fragility !== undefined;

/** An opened quilt lay in somebody's hands; a later photo that grades no cloth does not undo that. */
const seenNow = (survey: Survey, later: Resurvey): Survey['seen'] => {
  if (later.opened) return 'in hand';
  if (later.seen === 'photos' && survey.seen === 'in hand' && !gradesCloth(later)) return 'in hand';
  return later.seen ?? survey.seen;
};

const surveyAfter = (survey: Survey, later: Resurvey): Survey => {
  const { quilt: _quilt, opened: _opened, seen: _seen, families, findings, ...stated } = later;
  const { counts, units, also, known_by: before, ...kept } = survey;
  const checked = (id: string): boolean => later.seen !== 'photos' && findings?.[id] !== undefined;
  const known = Object.entries(before ?? {}).filter(([id]) => !checked(id));
  // A count and a map say the same thing in two ways: the later one holds alone.
  const states =
    stated.counts || stated.units
      ? {}
      : { ...(counts ? { counts } : {}), ...(units ? { units } : {}), ...(also ? { also } : {}) };
  return {
    ...kept,
    ...(known.length === 0 ? {} : { known_by: Object.fromEntries(known) }),
    ...states,
    ...stated,
    seen: seenNow(survey, later),
    ...(families || survey.families
      ? { families: laidOver(survey.families ?? {}, families ?? {}) as Record<string, Family> }
      : {}),
    findings: { ...survey.findings, ...findings },
  };
};

/** A case after its later looks. `opened` of a case is the day it came in, so this has another name. */
export interface CurrentCase extends QuiltCase {
  /** Somebody has looked inside: between the layers, where most surprises lie. */
  readonly lookedInside: boolean;
}

/**
 * The case as it stands after every later look, in the order of their dates. Each look overrides what it states:
 * findings, families and the quilt merge line by line, counts and joins are replaced as a whole. The looks
 * themselves stay in `resurveys`.
 */
export const currentCase = (c: QuiltCase): CurrentCase => {
  let { quilt, survey } = c;
  for (const later of inOrder(c.resurveys)) {
    quilt = laidOver(quilt, later.quilt) as Quilt;
    survey = surveyAfter(survey, later);
  }
  return { ...c, quilt, survey, lookedInside: c.resurveys.some((resurvey) => resurvey.opened === true) };
};
