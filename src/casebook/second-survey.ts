import { byPlace, type Problem } from '../problems/problem.ts';
import { quoted } from '../source/quote.ts';
import { readYaml } from '../source/read-yaml.ts';
import type { Source } from '../source/source.ts';
import { zodProblems } from '../source/zod-messages.ts';
import { checkMaps } from './checks/maps.ts';
import { checkPlaces } from './checks/places.ts';
import { checkCauses, checkJoins, checkSums } from './checks/sums.ts';
import type { FindingReader } from './fields.ts';
import { text } from './fields.ts';
import type { HazardLook, Quilt, QuiltCase, Survey } from './model.ts';
import { group, laterQuiltShape } from './quilt-shape.ts';
import { formatLine, isReservedName } from './schema.ts';
import { surveyShape } from './survey-shape.ts';

/** The same quilt surveyed by somebody else, who has not seen the first one's answers. */
export interface SecondSurvey {
  readonly mendwise: 1;
  /** Name of the case. */
  readonly survey_of: string;
  /** Who surveyed: also the middle of the file's name, `CASE.helper-b.yaml`. */
  readonly by: string;
  readonly survey: Survey;
  readonly quilt?: Partial<Quilt>;
}

export const secondSurveySchema = (readFinding: FindingReader) =>
  group({
    mendwise: formatLine,
    survey_of: text(),
    by: text(),
    survey: surveyShape(readFinding),
    quilt: laterQuiltShape.exactOptional(),
  });

/** `lantern-ninepatch.helper-b.yaml` for the case `lantern-ninepatch`. */
export const secondSurveyFile = (caseName: string, helper: string): string => `${caseName}.${helper}.yaml`;

/** Case and helper from the name of a file, or undefined where the file is no second survey. */
export const secondSurveyOf = (file: string): { caseName: string; helper: string } | undefined => {
  const [, caseName, helper] =
    /^([^./\\]+)\.([^./\\]+)\.ya?ml$/i.exec(file.split(/[/\\]/).at(-1) ?? '') ?? [];
  return caseName === undefined || helper === undefined ? undefined : { caseName, helper };
};

/** The name of a helper becomes part of a file's name. */
export const isHelperName = (name: string): boolean =>
  !isReservedName(name) && /^[\p{L}\p{N}]+(-[\p{L}\p{N}]+)*$/u.test(name) && name.length <= 40;

/** The case as the second surveyor found it: what this survey does not state stays unstated. */
export const asSurveyed = (base: QuiltCase, second: SecondSurvey): QuiltCase => {
  const { layout, title, construction, made, must_stay, size } = base.quilt;
  const kept = { layout, title, construction, made, must_stay };
  const known = Object.fromEntries(Object.entries(kept).filter(([, value]) => value !== undefined));
  return {
    ...base,
    quilt: { size, ...known, ...second.quilt },
    survey: second.survey,
    resurveys: [],
  };
};

export interface SecondSurveyReading {
  readonly survey?: SecondSurvey;
  readonly source?: Source;
  readonly problems: Problem[];
}

/** Checks of one look; the rest of a case is checked in its own file. */
const LOOK_CHECKS = [checkMaps, checkPlaces, checkJoins, checkSums, checkCauses];

/**
 * Reads a second survey. `base` is the case it is of, undefined where there is none: that is an error of its own.
 * Everything wrong comes back at once.
 */
export const readSecondSurvey = (
  file: string,
  text: string,
  readFinding: FindingReader,
  base: QuiltCase | undefined,
): SecondSurveyReading => {
  const read = readYaml(file, text);
  if ('problems' in read) return { problems: read.problems };
  const { source } = read;
  const { value } = source;
  if (value === null || typeof value !== 'object' || Array.isArray(value)) {
    const what = `a second survey begins with the line mendwise: 1, but this file holds ${quoted(value)}`;
    return { source, problems: [{ code: 'wrong-kind', severity: 'error', what, place: source.place([]) }] };
  }
  const schema = secondSurveySchema(readFinding);
  const result = schema.safeParse(value);
  if (!result.success)
    return { source, problems: zodProblems(result.error, source, { schema }).sort(byPlace) };
  const survey: SecondSurvey = result.data;
  const problems = [...nameProblems(file, survey, source), ...baseProblems(survey, base, source)];
  if (base !== undefined) {
    const { must_stay: _untold, ...quilt } = asSurveyed(base, survey).quilt;
    const quiltCase = { ...asSurveyed(base, survey), quilt };
    problems.push(...LOOK_CHECKS.flatMap((check) => check({ source, quiltCase })));
  }
  problems.sort(byPlace);
  return problems.every(({ severity }) => severity === 'warning')
    ? { survey, source, problems }
    : { source, problems };
};

/** What a second survey states, hazards among it; or everything wrong in it. */
export function hazardLookIn(
  file: string,
  text: string,
  readFinding: FindingReader,
): { readonly look: HazardLook } | { readonly problems: readonly Problem[] } {
  const read = readYaml(file, text);
  if ('problems' in read) return read;
  const schema = secondSurveySchema(readFinding);
  const result = schema.safeParse(read.source.value);
  if (!result.success) return { problems: zodProblems(result.error, read.source, { schema }) };
  const { on, findings = {} } = result.data.survey;
  return { look: { ...(on === undefined ? {} : { on }), findings } };
}

const nameProblems = (file: string, { survey_of: of, by }: SecondSurvey, source: Source): Problem[] => {
  const named = secondSurveyOf(file);
  if (named === undefined) return [];
  const wrong = (key: string, said: string, named: string): Problem => ({
    code: 'case-name',
    severity: 'error',
    what: `${key} is "${said}", but the file is named for "${named}"`,
    place: source.place([key]),
    didYouMean: named,
  });
  return [
    ...(of === named.caseName ? [] : [wrong('survey_of', of, named.caseName)]),
    ...(by === named.helper ? [] : [wrong('by', by, named.helper)]),
  ];
};

const baseProblems = (
  { survey_of: of, by }: SecondSurvey,
  base: QuiltCase | undefined,
  source: Source,
): Problem[] => {
  if (base === undefined) {
    const what = `this is a second survey of "${of}", but there is no such case`;
    const cure = 'Correct the name after survey_of, or bring the case back from .history.';
    return [{ code: 'no-such-file', severity: 'error', what, cure, place: source.place(['survey_of']) }];
  }
  if (base.survey.by !== by) return [];
  const what = `${by} made the first survey of ${of}, so this is the same helper twice`;
  const why = 'Two surveys by one person say nothing of how far two people agree.';
  const cure = 'Let somebody else survey it, or enter a later look by the same person under resurveys.';
  return [{ code: 'already-there', severity: 'error', what, why, cure, place: source.place(['by']) }];
};
