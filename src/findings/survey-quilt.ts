import type { Figures } from '../figures/model.ts';
import { layOut } from '../piecework/lay-out.ts';
import { unitRows } from '../piecework/reading.ts';
import type { LatestLook } from './latest-look.ts';
import { surveyFamilies } from './survey-families.ts';
import { surveyGroups } from './survey-groups.ts';
import { surveyJoins } from './survey-joins.ts';
import type { SurveyedQuilt } from './surveyed.ts';

/**
 * What the latest looks at a quilt say of it, worked out once. The top is its whole units: strips, borders and the
 * half units at the edge of a quilt set on point belong to no share. Expects a case that has been read and checked.
 */
export const surveyQuilt = ({ case: latest, gradeSeen }: LatestLook, figures: Figures): SurveyedQuilt => {
  const { quilt, survey } = latest;
  const piecework = layOut(quilt.layout, quilt.size, quilt.construction);
  const positions = unitRows(piecework).map((row) => row.map((unit) => unit.at));
  const families = surveyFamilies(survey, gradeSeen.families);
  const { counts } = survey;
  const counted = survey.units === undefined && counts !== undefined;
  const counting = counted && piecework.kind === 'survey grid' ? 'patches' : 'units';
  const units = positions.reduce((sum, row) => sum + row.length, 0);
  const total = counted ? counts.of : units;
  return {
    piecework,
    counting,
    total,
    size: quilt.size,
    construction: quilt.construction,
    families,
    groups: surveyGroups(
      survey,
      families,
      positions,
      total,
      figures.number('findings.share_rounding'),
      counting === 'patches' || total > units || (piecework.piecesPerUnit ?? 1) === 1,
    ),
    joins: surveyJoins({
      joins: survey.joins,
      piecework,
      patches: counting === 'patches' ? total : undefined,
      construction: quilt.construction,
    }),
  };
};
