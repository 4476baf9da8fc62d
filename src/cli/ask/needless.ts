import { readAnswer } from '../../findings/read-answer.ts';
import { type FindingDef, pathOf, type Vocabulary } from '../../findings/vocabulary.ts';
import { type Answers, answerAt } from './answers.ts';

/** Whether what has been said makes a finding needless, as the vocabulary's `needless when` has it. Pure. */
export const isNeedless = (def: FindingDef, answers: Answers, vocabulary: Vocabulary): boolean =>
  def.needless.some(({ finding, is }) => {
    const other = vocabulary.findings.get(finding);
    const path = other && pathOf(other);
    if (other === undefined || path === undefined) return false;
    const reading = readAnswer(other, answerAt(answers, path));
    return 'value' in reading && reading.value === is;
  });
