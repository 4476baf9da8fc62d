import type { Expectation, QuiltCase } from '../casebook/model.ts';
import { prepare, type StudioPractice } from '../decision/prepare.ts';
import type { Situation } from '../decision/situation.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';

/** A case as the analysis is given it. */
export interface CaseText {
  /** The file it stands in, as it is shown. */
  readonly file: string;
  readonly quiltCase: QuiltCase;
  readonly from: 'studio' | 'shipped';
}

/** A case made ready once, to be judged as often as needed. */
export interface Study {
  readonly name: string;
  readonly file: string;
  readonly from: 'studio' | 'shipped';
  readonly quiltCase: QuiltCase;
  readonly situation: Situation;
  readonly expect: Expectation | undefined;
}

/** `knowledge` holds the rules in force on the day. */
export const studyOf = (
  { file, quiltCase, from }: CaseText,
  knowledge: Knowledge,
  practice: StudioPractice,
  asOf: string,
): Study => ({
  name: quiltCase.case,
  file,
  from,
  quiltCase,
  situation: prepare(quiltCase, knowledge, practice, asOf),
  expect: quiltCase.expect,
});

/**
 * The studies coverage looks at: each case by the studio's practice, and where washing is wanted by the other practice
 * as well, because no case can say which practice the studio keeps.
 */
export const studiesBothWays = (
  texts: readonly CaseText[],
  knowledge: Knowledge,
  practice: StudioPractice,
  asOf: string,
): Study[] =>
  texts.flatMap((text) => {
    const own = studyOf(text, knowledge, practice, asOf);
    if (text.quiltCase.survey.findings.wash_wanted !== true) return [own];
    const washing = practice.washing === 'museum' ? 'studio' : 'museum';
    const other = studyOf(text, knowledge, { ...practice, washing }, asOf);
    return [own, { ...other, name: `${own.name} (by ${washing} practice)`, expect: undefined }];
  });
