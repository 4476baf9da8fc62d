import { isDeepStrictEqual } from 'node:util';
import { HAZARD_SIGNS } from '../casebook/hazards.ts';
import type { QuiltCase } from '../casebook/model.ts';
import type { Hazard } from '../casebook/scales.ts';
import { readAnswer } from '../findings/read-answer.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import { type Answers, answerAt, textAt } from './answers.ts';
import type { Flaw } from './question.ts';

const named = (hazard: Hazard): string => hazard.replaceAll('_', ' ');

const recordedBy = (name: string, hazard: Hazard): string =>
  `mendwise treated ${name} --hazard ${hazard} --how "…" --by … --confirmed-by …`;

/**
 * What is wrong with answers that take back a hazard the case notes, or that put one found again after it was dealt with
 * in the place of the first survey. Nothing where an answer has not been given. Pure.
 */
export function takenBack(onFile: QuiltCase, answers: Answers, vocabulary: Vocabulary): Flaw | undefined {
  for (const sign of HAZARD_SIGNS) {
    const raw = answerAt(answers, ['survey', 'findings', sign.finding]);
    const def = vocabulary.findings.get(sign.finding);
    if (raw === undefined || def === undefined) continue;
    const reading = readAnswer(def, raw);
    // What cannot be read is refused for that.
    if ('problem' in reading) continue;
    const flaw = against(onFile, sign, 'value' in reading ? reading.value : undefined);
    if (flaw !== undefined) return flaw;
  }
  return undefined;
}

/** The same of the case as it would be written, whatever way it got there: no look and nothing done goes away either. Pure. */
export function lostFrom(onFile: QuiltCase, after: QuiltCase): Flaw | undefined {
  for (const sign of HAZARD_SIGNS) {
    const flaw = against(onFile, sign, after.survey.findings[sign.finding]);
    if (flaw !== undefined) return flaw;
  }
  const lists = ({ resurveys, treated = [] }: QuiltCase) => ({ resurveys, treated });
  if (isDeepStrictEqual(lists(onFile), lists(after))) return undefined;
  return {
    code: 'hazard-stands',
    what: 'later looks and what was done about hazards are not written by a survey',
    cure: `Leave "resurveys" and "treated" out. A later look is written by mendwise survey ${onFile.case} --on DATE, what was done by mendwise treated ${onFile.case}.`,
  };
}

/** What speaks against a finding having another value than the case gives it. */
function against(
  onFile: QuiltCase,
  { hazard, finding, size }: (typeof HAZARD_SIGNS)[number],
  value: Parameters<typeof size>[0],
): Flaw | undefined {
  const was = size(onFile.survey.findings[finding]);
  const dealtWith = onFile.treated?.find((each) => each.hazard === hazard);
  if (size(value) < was)
    return {
      code: 'hazard-stands',
      what: `${named(hazard)} is noted in this case (${finding}), and another answer does not take it back`,
      cure:
        dealtWith === undefined
          ? `Leave the answer as it was. If something was done about it, or if it was noted by mistake, write down which, and who says so: ${recordedBy(onFile.case, hazard)}`
          : `Leave the answer as it was: "treated" says what was done about it on ${dealtWith.on}, and that counts.`,
    };
  if (size(value) > was && dealtWith !== undefined && onFile.survey.seen !== 'photos')
    return {
      code: 'hazard-stands',
      what: `${named(hazard)} was dealt with on ${dealtWith.on}, so finding more of it is a further look`,
      why: 'Put among the findings of the first survey, it would count as dealt with.',
      cure: `Write it down with the day it was found: mendwise survey ${onFile.case} --on DATE --set "${finding}=…"`,
    };
  return undefined;
}

/** Nobody has seen a quilt on a day that has not come yet. Pure. */
export function stillToCome(said: Answers, today: string): Flaw | undefined {
  for (const path of [['survey', 'on'], ['opened']]) {
    const day = textAt(said, path);
    if (day !== undefined && day > today)
      return {
        code: 'bad-date',
        what: `${path.join('.')} is ${day}, which has not come yet`,
        why: 'Wear, follow-ups and what was done about hazards are reckoned from these days.',
        cure: 'Give the day on which it was.',
      };
  }
  return undefined;
}
