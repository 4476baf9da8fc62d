import { GRADES } from '../casebook/scales.ts';
import { ProblemError } from '../problems/problem.ts';
import { readYaml } from '../source/read-yaml.ts';
import { zodProblems } from '../source/zod-messages.ts';
import {
  type FindingEntry,
  type VocabularyFile,
  vocabularyFile,
  vocabularyProblems,
} from './check-vocabulary.ts';
import type { FindingDef, LikelyValue, Option, Per, Vocabulary } from './vocabulary.ts';

/**
 * The vocabulary from the text of rules/findings.yaml; `file` is its name for messages.
 * Throws ProblemError with every slip found: first of the YAML, then of the shape, then of what the names refer to.
 */
export const readVocabulary = (file: string, text: string): Vocabulary => {
  const reading = readYaml(file, text);
  if ('problems' in reading) throw new ProblemError(reading.problems);
  const parsed = vocabularyFile.safeParse(reading.source.value);
  if (!parsed.success)
    throw new ProblemError(zodProblems(parsed.error, reading.source, { schema: vocabularyFile }));
  const problems = vocabularyProblems(parsed.data, reading.source);
  if (problems.length > 0) throw new ProblemError(problems);
  return buildVocabulary(parsed.data);
};

type WrittenOption = NonNullable<FindingEntry['options']>[string];

const optionOf = (value: string, written: WrittenOption, likelihood: number | undefined): Option => {
  if (typeof written === 'string') return { value, label: written, anchors: {}, likelihood };
  const { label, ...anchors } = written;
  return { value, label, anchors, likelihood };
};

/** `yes` and `no` are truth values whatever the YAML version. */
const said = <T>(word: T): T | boolean => (word === 'yes' ? true : word === 'no' ? false : word);

const chancesOf = (entry: FindingEntry): Readonly<Record<string, number>> =>
  typeof entry.likely === 'object' && !Array.isArray(entry.likely) ? entry.likely : {};

const likelyValues = (entry: FindingEntry, options: readonly Option[], ordered: boolean): LikelyValue[] => {
  const { likely } = entry;
  if (likely === undefined) return [];
  if (typeof likely === 'number') {
    return [
      { value: true, weight: likely },
      { value: false, weight: 1 - likely },
    ];
  }
  if (Array.isArray(likely)) {
    const points = new Map<number, number>();
    for (const value of likely) points.set(value, (points.get(value) ?? 0) + 1 / likely.length);
    return [...points].map(([value, weight]) => ({ value, weight }));
  }
  return options.flatMap(({ value, likelihood }, index) =>
    likelihood ? [{ value: ordered ? index : value, weight: likelihood }] : [],
  );
};

const build = (
  file: VocabularyFile,
  id: string,
  entry: FindingEntry,
  { per, order }: Pick<FindingDef, 'per' | 'order'>,
): FindingDef => {
  const isGrade = entry.kind === 'grade';
  const chances = chancesOf(entry);
  const written: Readonly<Record<string, WrittenOption>> = isGrade ? file.grades : (entry.options ?? {});
  const names: readonly string[] = isGrade ? GRADES : Object.keys(written);
  const options = names.map((value) =>
    optionOf(value, written[value] ?? value, entry.at === 'derived' ? undefined : (chances[value] ?? 0)),
  );
  const ordered = isGrade || entry.ordered === true;
  const share = entry.kind === 'fraction' ? { min: 0, max: 1 } : undefined;
  return {
    id,
    per,
    label: entry.label,
    question: entry.question,
    kind: entry.kind,
    ordered,
    options,
    range: entry.range ?? share,
    unit: entry.unit,
    at: entry.at,
    planned: entry.planned === true,
    how: entry.how,
    who: entry.who,
    cost: entry.cost,
    likely: likelyValues(entry, options, ordered),
    group: entry.group,
    order,
    needless: (entry['needless when'] ?? []).map(({ finding, is, gives }) => ({
      finding,
      is: said(is),
      gives: gives === undefined ? undefined : said(gives),
    })),
    evidence: entry.evidence,
    source: entry.source,
  };
};

/** The vocabulary from a file whose shape has been checked. Order within a group is the order of the file. */
const buildVocabulary = (file: VocabularyFile): Vocabulary => {
  const level = (entries: VocabularyFile['findings'], per: Per): ReadonlyMap<string, FindingDef> =>
    new Map(
      Object.entries(entries).map(([id, entry], order) => [
        id,
        build(file, id, entry, { per: entry.per ?? per, order }),
      ]),
    );
  return {
    groups: Object.entries(file.groups).map(([id, title]) => ({ id, title })),
    findings: level(file.findings, 'quilt'),
    family: level(file.family, 'family'),
    unit: level(file.unit, 'unit'),
    grades: GRADES.map((grade) => optionOf(grade, file.grades[grade] ?? grade, undefined)),
    protocol: file.protocol,
    stopRule: file.stop_rule,
  };
};
