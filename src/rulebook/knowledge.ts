import type { Figures } from '../figures/model.ts';
import { readFigures } from '../figures/read-figures.ts';
import { readVocabulary } from '../findings/read-vocabulary.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { readYaml } from '../source/read-yaml.ts';
import { assembleRulebook } from './assemble.ts';
import { type Rule, type Rulebook, type RuleGroup, STAGES } from './model.ts';
import { readRules } from './read-rules.ts';
import { type Subjects, subjectsOfVocabulary } from './subjects.ts';

/** A text file by the name it is reported under. */
export interface TextFile {
  readonly file: string;
  readonly text: string;
}

/** Everything a practitioner edits, read and checked. */
export interface Knowledge {
  readonly vocabulary: Vocabulary;
  readonly figures: Figures;
  readonly rulebook: Rulebook;
  readonly subjects: Subjects;
}

/**
 * Reads findings, figures and rules. `read` gives the file of a name such as `stages/stop.yaml`.
 * Throws ProblemError with everything wrong in all of them, so that one run shows all there is to mend.
 */
export function readKnowledge(read: (name: string) => TextFile): Knowledge {
  const findings = read('findings.yaml');
  // Rules cannot be checked against a vocabulary that does not read.
  const vocabulary = readVocabulary(findings.file, findings.text);
  const subjects = subjectsOfVocabulary(vocabulary);
  const problems: Problem[] = [];
  const figureFile = read('figures.yaml');
  const figures = readFigureFile(figureFile, problems);
  const rules: Rule[] = [];
  const names: string[] = [];
  const texts: string[] = [findings.text, figureFile.text];
  for (const { name, group } of RULE_FILES) {
    const { file, text } = read(name);
    texts.push(text);
    const source = readYaml(file, text);
    if ('problems' in source) problems.push(...source.problems);
    else {
      const result = readRules(source.source, group, subjects);
      rules.push(...result.rules);
      names.push(...result.names);
      problems.push(...result.problems);
    }
  }
  const assembled = assembleRulebook(rules, texts, names);
  problems.push(...assembled.problems);
  if (figures === undefined || problems.some((problem) => problem.severity === 'error'))
    throw new ProblemError(problems);
  return { vocabulary, figures, rulebook: assembled.rulebook, subjects };
}

/** The same from all files of a rules folder, in the order of KNOWLEDGE_FILES. */
export const readKnowledgeFiles = (files: readonly TextFile[]): Knowledge =>
  readKnowledge((name) => files[KNOWLEDGE_FILES.indexOf(name)] ?? { file: name, text: '' });

function readFigureFile({ file, text }: TextFile, problems: Problem[]): Figures | undefined {
  const source = readYaml(file, text);
  if ('problems' in source) {
    problems.push(...source.problems);
    return undefined;
  }
  const result = readFigures(source.source);
  problems.push(...result.problems);
  return result.figures;
}

/** The files of a rules folder that hold rules, by their names in it. */
export const RULE_FILES: readonly { readonly name: string; readonly group: RuleGroup }[] = [
  { name: 'units.yaml', group: 'units' },
  ...STAGES.map((stage) => ({ name: `stages/${stage}.yaml`, group: stage })),
];

/** Every file of a rules folder that is read for a decision. */
export const KNOWLEDGE_FILES: readonly string[] = [
  'findings.yaml',
  'figures.yaml',
  ...RULE_FILES.map(({ name }) => name),
];
