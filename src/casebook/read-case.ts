import type { z } from 'zod';
import { byPlace, type Problem } from '../problems/problem.ts';
import { quoted, textOf } from '../source/quote.ts';
import { readYaml } from '../source/read-yaml.ts';
import type { Path, Source } from '../source/source.ts';
import { zodProblems } from '../source/zod-messages.ts';
import type { Check } from './checks/check.ts';
import { checkDates, checkFollowups } from './checks/followups.ts';
import { checkMaps } from './checks/maps.ts';
import { checkPlaces } from './checks/places.ts';
import { checkSize } from './checks/size.ts';
import { checkAbsent, checkCauses, checkJoins, checkSums } from './checks/sums.ts';
import { checkTreated } from './checks/treated.ts';
import { checkUnusual } from './checks/unusual.ts';
import type { FindingReader } from './fields.ts';
import type { HazardLook, QuiltCase } from './model.ts';
import { caseSchema } from './schema.ts';

export interface CaseReading {
  /** Absent where there is any error; warnings alone leave it. */
  readonly case?: QuiltCase;
  readonly source?: Source;
  /** By line; errors and warnings together. */
  readonly problems: Problem[];
}

/** The one format this version reads and writes. */
const FORMAT = 1;

/** Building the checks takes as long as reading a case, so one reader's are built once. */
const built = new WeakMap<FindingReader, ReturnType<typeof caseSchema>>();

const schemaFor = (readFinding: FindingReader): ReturnType<typeof caseSchema> => {
  const known = built.get(readFinding);
  if (known) return known;
  const schema = caseSchema(readFinding);
  built.set(readFinding, schema);
  return schema;
};

const formatOf = (value: object): unknown => Reflect.get(value, 'mendwise');

const newer = (source: Source, value: object): Problem | undefined => {
  const format = Number(textOf(formatOf(value)) || Number.NaN);
  if (!Number.isFinite(format) || format <= FORMAT) return undefined;
  return {
    code: 'newer-format',
    severity: 'error',
    what: `this file has format ${format}; this version reads format ${FORMAT}`,
    place: source.place(['mendwise']),
  };
};

const nameFits = (file: string, name: string, source: Source): Problem[] => {
  const [, stem] = /([^/\\]+)\.ya?ml$/i.exec(file) ?? [];
  if (stem === undefined || stem === name) return [];
  return [
    {
      code: 'case-name',
      severity: 'error',
      what: `the case is called "${name}", but its file "${stem}"`,
      place: source.place(['case']),
      didYouMean: stem,
    },
  ];
};

/**
 * Reads a case file. Pure: `text` is the whole file, `file` its name. Everything wrong comes back at once. `elsewhere` is
 * what other surveys of the quilt state; undefined where nobody looked for any.
 */
export const readCase = (
  file: string,
  text: string,
  readFinding: FindingReader,
  elsewhere?: readonly HazardLook[],
): CaseReading => {
  const read = readYaml(file, text);
  return 'problems' in read
    ? { problems: read.problems }
    : readCaseSource(read.source, readFinding, elsewhere);
};

/** Reads what a case file holds, once it has been read as YAML. */
const readCaseSource = (
  source: Source,
  readFinding: FindingReader,
  elsewhere?: readonly HazardLook[],
): CaseReading => {
  const { file, value } = source;
  if (value === null || typeof value !== 'object' || Array.isArray(value)) {
    const what = `a case begins with the line mendwise: 1, but this file holds ${quoted(value)}`;
    return { source, problems: [{ code: 'wrong-kind', severity: 'error', what, place: source.place([]) }] };
  }
  const ahead = newer(source, value);
  if (ahead) return { source, problems: [ahead] };

  const schema = schemaFor(readFinding);
  const result = schema.safeParse(value);
  const problems = result.success ? [] : zodProblems(result.error, source, { schema });
  const parsed = result.success ? result.data : readPartially(schema, value);
  const quiltCase = parsed && elsewhere ? { ...parsed, elsewhere } : parsed;
  if (quiltCase) {
    problems.push(...CHECKS.flatMap((check) => check({ source, quiltCase })));
    if (problems.every(({ severity }) => severity === 'warning'))
      problems.push(...SECOND_LOOKS.flatMap((check) => check({ source, quiltCase })));
    if (Reflect.get(value, 'case') === quiltCase.case)
      problems.push(...nameFits(file, quiltCase.case, source));
  }
  problems.sort(byPlace);
  const sound = result.success && problems.every((problem) => problem.severity === 'warning');
  return sound && quiltCase ? { case: quiltCase, source, problems } : { source, problems };
};

/** What a case cannot do without, and what stands in for it while the rest is looked through. Nothing checks these. */
const STAND_INS: readonly (readonly [path: Path, value: unknown])[] = [
  [['mendwise'], 1],
  [['case'], 'unnamed'],
  [['quilt'], {}],
  [['quilt', 'size'], { width: '400 in', height: '400 in' }],
  [['survey'], {}],
  [['survey', 'seen'], 'in hand'],
];

type Container = Record<string | number, unknown>;
const isContainer = (value: unknown): value is Container => typeof value === 'object' && value !== null;

const at = (root: unknown, path: Path): unknown => {
  let here = root;
  for (const segment of path) here = isContainer(here) ? here[segment] : undefined;
  return here;
};

/** Takes out what stands at a path: a line of a group, or the whole list it is an entry of, so that no entry moves up. */
const takeOut = (root: unknown, path: Path): void => {
  const name = path.at(-1);
  const parent = at(root, path.slice(0, -1));
  if (name === undefined || !isContainer(parent)) return;
  if (Array.isArray(parent)) takeOut(root, path.slice(0, -1));
  // A required line that is missing takes its group with it.
  else if (!Object.hasOwn(parent, name)) takeOut(root, path.slice(0, -1));
  else delete parent[name];
};

/**
 * As much of a faulty case as can be understood, so that one run can report what else is wrong. For the checks
 * only, never for use; undefined where too little is left.
 */
const readPartially = (schema: z.ZodType<QuiltCase>, value: unknown): QuiltCase | undefined => {
  const rest: unknown = structuredClone(value);
  for (let round = 0; round < 12; round += 1) {
    for (const [path, standIn] of STAND_INS) {
      const parent = at(rest, path.slice(0, -1));
      const name = path.at(-1);
      if (isContainer(parent) && name !== undefined && !Object.hasOwn(parent, name)) parent[name] = standIn;
    }
    const result = schema.safeParse(rest);
    if (result.success) return result.data;
    for (const issue of result.error.issues) {
      const path = issue.path.map((part) => (typeof part === 'number' ? part : String(part)));
      if (issue.code === 'unrecognized_keys') for (const key of issue.keys) takeOut(rest, [...path, key]);
      else takeOut(rest, path);
    }
  }
  return undefined;
};

/** Everything that is checked once each line on its own is right. */
const CHECKS: readonly Check[] = [
  checkMaps,
  checkPlaces,
  checkJoins,
  checkSums,
  checkCauses,
  checkSize,
  checkDates,
  checkFollowups,
  checkTreated,
];

/** What is worth a second look, once nothing is wrong: neither faulty lines nor their stand-ins deserve one. */
const SECOND_LOOKS: readonly Check[] = [checkAbsent, checkUnusual];
