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
  for (const { hazard, finding, size } of HAZARD_SIGNS) {
    const raw = answerAt(answers, ['survey', 'findings', finding]);
    const def = vocabulary.findings.get(finding);
    if (raw === undefined || def === undefined) continue;
    const reading = readAnswer(def, raw);
    // What cannot be read is refused for that.
    if ('problem' in reading) continue;
    const was = size(onFile.survey.findings[finding]);
    const is = 'value' in reading ? size(reading.value) : 0;
    if (is === was) continue;
    const dealtWith = onFile.treated?.find((each) => each.hazard === hazard);
    if (is < was)
      return {
        code: 'hazard-stands',
        what: `${named(hazard)} is noted in this case, and another answer to "${def.label}" does not take it back`,
        cure:
          dealtWith === undefined
            ? `Leave the answer as it was. If something was done about it, or if it was noted by mistake, write down which, and who says so: ${recordedBy(onFile.case, hazard)}`
            : `Leave the answer as it was: "treated" says what was done about it on ${dealtWith.on}, and that counts.`,
      };
    if (dealtWith !== undefined && onFile.survey.seen !== 'photos')
      return {
        code: 'hazard-stands',
        what: `${named(hazard)} was dealt with on ${dealtWith.on}, so finding more of it is a further look`,
        why: 'Put among the findings of the first survey, it would count as dealt with.',
        cure: `Write it down with the day it was found: mendwise survey ${onFile.case} --on DATE --set "${finding}=…"`,
      };
  }
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
