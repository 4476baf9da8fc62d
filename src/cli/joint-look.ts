import { contextOf } from '../decision/context.ts';
import { disagreements, thatMatter } from '../experience/disagreement.ts';
import { sayPairs, sayVerdict, topicName } from '../experience/saying.ts';
import type { OpenCase } from './open-case.ts';
import { otherSurveys } from './open-surveys.ts';
import { sayingOf } from './saying.ts';
import type { Studio } from './studio.ts';
import { disagreementsForScripts } from './surveys-for-scripts.ts';

/** What to say where surveys of one quilt lead to different answers; and the same as data. */
export interface JointLook {
  /** Undefined where the surveys agree on everything that matters. */
  readonly message: readonly string[] | undefined;
  readonly data: ReturnType<typeof disagreementsForScripts>;
}

/**
 * Looks whether others have surveyed the quilt, and whether they disagree on something that changes the answer. Their
 * findings are never averaged: the answer stays that of the first survey, and a joint look is asked for. Undefined where
 * there is no other survey.
 */
export const jointLook = async (
  { path, case: base }: OpenCase,
  studio: Studio,
  day: string,
): Promise<JointLook | undefined> => {
  const { others } = await otherSurveys(path, base, studio);
  if (others.length === 0) return undefined;
  const context = contextOf(studio, day);
  const found = disagreements(base, others, context);
  const saying = sayingOf(studio);
  const matter = thatMatter(found);
  const data = disagreementsForScripts(found);
  if (matter.length === 0 && !found.onlyTogether) return { message: undefined, data };
  const helpers = found.views.map(({ helper, verdict }) => `${helper}: ${sayVerdict(verdict, saying)}`);
  return {
    data,
    message: [
      'The surveys of this quilt disagree on something that changes the answer. Look at it together before anything is promised; the answer given is that of the first survey.',
      `By each survey: ${helpers.join('; ')}.`,
      ...matter.map((one) => `${topicName(one)}: ${sayPairs(one, saying).join('. ')}`),
      ...(found.onlyTogether
        ? ['No single finding accounts for it, so go through the whole survey together.']
        : []),
      `The signs to look for: mendwise helpers ${base.case}`,
    ],
  };
};
