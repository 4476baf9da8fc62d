import { readFileSync } from 'node:fs';
import { readVocabulary } from '../../src/findings/read-vocabulary.ts';
import type { Problem } from '../../src/problems/problem.ts';
import { assembleRulebook } from '../../src/rulebook/assemble.ts';
import type { Rulebook, RuleGroup } from '../../src/rulebook/model.ts';
import { readRules } from '../../src/rulebook/read-rules.ts';
import { subjectsOfVocabulary } from '../../src/rulebook/subjects.ts';
import { readYaml } from '../../src/source/read-yaml.ts';

const FINDINGS = readFileSync(new URL('../../rules/findings.yaml', import.meta.url), 'utf8');

/** Rules are read against the shipped vocabulary. */
export const subjects = subjectsOfVocabulary(readVocabulary('findings.yaml', FINDINGS));

export interface BookReading {
  readonly book: Rulebook;
  readonly problems: readonly Problem[];
}

/** Reads one file of rules and joins it to a book, all problems together. */
export function readBook(text: string, group: RuleGroup = 'structure'): BookReading {
  const source = readYaml('rules/stages/some.yaml', text);
  if ('problems' in source) throw new Error(source.problems.map(({ what }) => what).join('; '));
  const { rules, names, problems } = readRules(source.source, group, subjects);
  const assembled = assembleRulebook(rules, [text], names);
  return { book: assembled.rulebook, problems: [...problems, ...assembled.problems] };
}

/** `line:column [code] sentence «near miss»` */
export const brief = ({ place, code, what, didYouMean }: Problem): string =>
  `${place?.line}:${place?.column} [${code}] ${what}${didYouMean === undefined ? '' : ` «${didYouMean}»`}`;
