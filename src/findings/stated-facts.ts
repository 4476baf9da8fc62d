import { GRADES, type Grade } from '../casebook/scales.ts';
import { oncePer } from '../quantities/once.ts';
import type { Fact } from './fact.ts';
import type { LatestLook } from './latest-look.ts';
import { seenGrade } from './survey-families.ts';
import { type FindingDef, factOfOption, pathOf, type Vocabulary } from './vocabulary.ts';

function at(value: unknown, path: readonly string[]): unknown {
  let here = value;
  for (const step of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, step)) return undefined;
    here = Reflect.get(here, step);
  }
  return here;
}

const isGrade = (value: unknown): value is Grade => GRADES.some((grade) => grade === value);

/** What the case file states of one finding, as facts hold it. "unknown" is no statement. */
const statedFact = (look: LatestLook, def: FindingDef): Fact => {
  const path = pathOf(def);
  if (path === undefined) return undefined;
  const value = at(look.case, path);
  if (def.kind === 'grade') {
    if (!isGrade(value)) return undefined;
    const part = path.at(-2);
    const seen = part === 'backing' || part === 'binding' ? look.gradeSeen[part] : look.case.survey.seen;
    return seenGrade(value, seen);
  }
  if (value === 'unknown') return undefined;
  if (def.kind === 'choice') return typeof value === 'string' ? factOfOption(def, value) : undefined;
  return typeof value === 'number' || typeof value === 'boolean' ? value : undefined;
};

const askedOfTheQuilt = oncePer(({ findings }: Vocabulary) =>
  [...findings.values()].filter((def) => def.per === 'quilt' && def.at !== 'derived'),
);

/**
 * Findings stated in the case file, by id, with what follows from others where a finding falls away: a filling that
 * is not there has not moved.
 */
export const statedFacts = (look: LatestLook, vocabulary: Vocabulary): Readonly<Record<string, Fact>> => {
  const asked = askedOfTheQuilt(vocabulary);
  const stated: Record<string, Fact> = {};
  for (const def of asked) stated[def.id] = statedFact(look, def);
  const needless = asked.filter((def) => def.needless.length > 0 && stated[def.id] === undefined);
  const implied = needless.map((def): [string, Fact] => {
    const reason = def.needless.find(({ finding, is }) => {
      const other = vocabulary.findings.get(finding);
      const wanted = other !== undefined && typeof is === 'string' ? factOfOption(other, is) : is;
      return stated[finding] !== undefined && stated[finding] === wanted;
    });
    return [def.id, reason?.gives];
  });
  // What follows is not followed further.
  for (const [id, fact] of implied) stated[id] = fact;
  return stated;
};
