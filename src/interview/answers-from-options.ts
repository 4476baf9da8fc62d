import { readCase } from '../casebook/read-case.ts';
import { findingReader } from '../findings/read-answer.ts';
import { pathOf, type Vocabulary } from '../findings/vocabulary.ts';
import { type Problem, ProblemError } from '../problems/problem.ts';
import { quoted } from '../source/quote.ts';
import { readYaml } from '../source/read-yaml.ts';
import type { Path } from '../source/source.ts';
import { suggest } from '../source/suggest.ts';
import { loadText } from '../store/load-text.ts';
import { type Answers, isGroup, mergedAnswers, UNKNOWN, withAnswer } from './answers.ts';
import { plainData } from './draft.ts';
import { writtenAnswer } from './finding-question.ts';
import { asNumber, badReference, REFERENCES } from './plain-question.ts';
import { validateAnswers } from './validate-answers.ts';

const refuse = (problem: Omit<Problem, 'severity'>): never => {
  throw new ProblemError([{ severity: 'error', ...problem }]);
};

/** Answers given as `--set path=value`; names are those of a case file, or a finding's own. */
export const answersFromSettings = (settings: readonly string[], vocabulary: Vocabulary): Answers => {
  let said: Answers = {};
  const named = new Set<string>();
  for (const setting of settings) {
    const [, name, value] = /^([^=]+)=(.*)$/s.exec(setting) ?? [];
    if (name === undefined || value === undefined) {
      return refuse({
        code: 'usage',
        what: `--set ${quoted(setting)} has no value`,
        cure: 'Write it like --set "quilt.size.width=72 in".',
      });
    }
    const path = pathNamed(name.trim(), vocabulary);
    said = withAnswer(said, path, valueFor(path, value.trim(), vocabulary));
    const [wrong] = validateAnswers(said, vocabulary).errors;
    // Later settings may still mend a sum; what contradicts itself at the end is refused then.
    if (wrong !== undefined && wrong.code !== 'sum-mismatch' && wrong.code !== 'map-letter')
      return refuse({ ...bare(wrong), what: `--set ${name.trim()}: ${wrong.what}` });
    const place = path.join('.');
    if (named.has(place))
      return refuse({
        code: 'usage',
        what: `--set gives ${name.trim()} twice`,
        why: 'Of two answers nobody could say which holds.',
        cure: 'Give each finding and each place once.',
      });
    named.add(place);
  }
  return said;
};

const bare = ({ code, what, why, cure, didYouMean }: Problem): Omit<Problem, 'severity'> => ({
  code,
  what,
  ...(why === undefined ? {} : { why }),
  ...(cure === undefined ? {} : { cure }),
  ...(didYouMean === undefined ? {} : { didYouMean }),
});

const ROOTS: readonly string[] = ['client', 'quilt', 'survey', 'history', 'photos', 'opened', 'reference'];

const pathNamed = (name: string, vocabulary: Vocabulary): Path => {
  const def = vocabulary.findings.get(name);
  const own = def && pathOf(def);
  if (own !== undefined) return own;
  const steps = name.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
  if (ROOTS.includes(String(steps[0]))) return steps;
  const near = suggest(name, [...vocabulary.findings.keys(), ...ROOTS]);
  return refuse({
    code: 'unknown-finding',
    what: `--set ${quoted(name)} names neither a finding nor a place in a case file`,
    why: 'What it was meant for would count as unknown.',
    cure: '"mendwise explain" lists the findings; places are written like quilt.size.width.',
    ...(near === undefined ? {} : { didYouMean: near }),
  });
};

/** A value in the case file's own terms: a finding by its reader, a map with a stroke between rows, a number as one. */
const valueFor = (path: Path, raw: string, vocabulary: Vocabulary): unknown => {
  const name = path.join('.');
  if (name === 'survey.units' || name === 'survey.family_map')
    return raw
      .split('/')
      .map((row) => `${row.trim()}\n`)
      .join('');
  const def = [...vocabulary.findings.values(), ...vocabulary.family.values()].find((each) => {
    const own = pathOf(each);
    return own?.length === path.length && own.every((step, at) => step === '*' || step === path[at]);
  });
  if (def !== undefined) {
    const written = writtenAnswer(def, raw);
    if ('flaw' in written) return refuse(written.flaw);
    return 'unknown' in written ? UNKNOWN : written.value;
  }
  if (!/^[[{]/.test(raw)) return asNumber(raw).value;
  const read = readYaml(`--set ${name}`, raw);
  if ('problems' in read) throw new ProblemError(read.problems);
  return plainData(read.source.value);
};

/** A fragment of a case file may leave out what a whole one needs; everything in it is held to the same checks. */
export const answersFromFile = async (file: string, vocabulary: Vocabulary): Promise<Answers> => {
  const text = await loadText(file);
  const read = readYaml(file, text);
  if ('problems' in read) throw new ProblemError(read.problems);
  const said = plainData(read.source.value);
  if (!isGroup(said)) {
    const what = 'a fragment of a case is a group of lines, such as quilt: and survey:';
    return refuse({ code: 'wrong-kind', what, place: read.source.place([]) });
  }
  const reading = readCase(file, text, findingReader(vocabulary));
  const problems = reading.problems.filter(
    ({ severity, code }) => severity === 'error' && code !== 'missing-key' && code !== 'case-name',
  );
  for (const path of REFERENCES) {
    const [group, name] = path;
    const inner = said[group];
    const value = isGroup(inner) ? inner[name] : undefined;
    const flaw = value === undefined ? undefined : badReference(value, path.join('.'));
    if (flaw !== undefined) problems.push({ severity: 'error', ...flaw, place: read.source.place(path) });
  }
  if (problems.length > 0) throw new ProblemError(problems);
  const { mendwise: _format, case: _name, ...rest } = said;
  return rest;
};

/** Everything given on the command line; a setting outweighs the file. Throws what is wrong, or contradicts itself. */
export const answersFromOptions = async (
  given: { readonly from: string | undefined; readonly settings: readonly string[] },
  vocabulary: Vocabulary,
): Promise<Answers> => {
  const fromFile = given.from === undefined ? {} : await answersFromFile(given.from, vocabulary);
  return mergedAnswers(fromFile, answersFromSettings(given.settings, vocabulary));
};
