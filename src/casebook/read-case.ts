import type { Problem } from '../problems/problem.ts';
import { byPlace } from '../problems/sort.ts';
import { readYaml } from '../source/read-yaml.ts';
import type { Source } from '../source/source.ts';
import { quoted, textOf } from '../source/spoken.ts';
import { zodProblems } from '../source/zod-problems.ts';
import { CHECKS, SECOND_LOOKS } from './checks/all.ts';
import type { FindingReader } from './finding-reader.ts';
import type { QuiltCase } from './model.ts';
import { salvage } from './salvage.ts';
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

/** Reads a case file. Pure: `text` is the whole file, `file` its name. Everything wrong comes back at once. */
export const readCase = (file: string, text: string, readFinding: FindingReader): CaseReading => {
  const read = readYaml(file, text);
  return 'problems' in read ? { problems: read.problems } : readCaseSource(read.source, readFinding);
};

/** Reads what a case file holds, once it has been read as YAML. */
export const readCaseSource = (source: Source, readFinding: FindingReader): CaseReading => {
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
  const quiltCase = result.success ? result.data : salvage(schema, value);
  if (quiltCase) {
    problems.push(...CHECKS.flatMap((check) => check({ source, quiltCase })));
    if (problems.every(({ severity }) => severity === 'warning'))
      problems.push(...SECOND_LOOKS.flatMap((check) => check({ source, quiltCase })));
    if (Reflect.get(value, 'case') === quiltCase.case)
      problems.push(...nameFits(file, quiltCase.case, source));
  }
  problems.sort(byPlace);
  const sound = result.success && problems.every((problem) => problem.severity === 'warning');
  return sound ? { case: result.data, source, problems } : { source, problems };
};
