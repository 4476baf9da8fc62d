import type { Expectation, QuiltCase } from '../casebook/model.ts';
import type { StudioPractice } from '../decision/context.ts';
import { prepare } from '../decision/prepare.ts';
import type { Situation } from '../decision/situation.ts';
import type { Knowledge } from '../rulebook/knowledge.ts';

/** A case as the analysis is given it. */
export interface CaseText {
  /** The file it stands in, as it is shown. */
  readonly file: string;
  readonly quiltCase: QuiltCase;
  readonly from: 'studio' | 'shipped';
  /** The practice it is judged by, where the folder it stands in has its own. */
  readonly practice?: StudioPractice;
}

/** A case made ready once, to be judged as often as needed. */
export interface Study {
  readonly name: string;
  readonly file: string;
  readonly from: 'studio' | 'shipped';
  readonly quiltCase: QuiltCase;
  readonly situation: Situation;
  readonly practice: StudioPractice;
  readonly expect: Expectation | undefined;
}

/** `knowledge` holds the rules in force on the day; `practice` is the studio's. */
export const studyOf = (
  { file, quiltCase, from, practice: own }: CaseText,
  knowledge: Knowledge,
  practice: StudioPractice,
  asOf: string,
): Study => ({
  name: quiltCase.case,
  file,
  from,
  quiltCase,
  practice: own ?? practice,
  situation: prepare(quiltCase, { knowledge, practice: own ?? practice, day: asOf }),
  expect: quiltCase.expect,
});
