import type { Problem } from '../../problems/problem.ts';
import { LAYOUT_RULES } from '../positions.ts';
import { type Check, type CheckContext, type Look, looks } from './check.ts';

const error = { code: 'sum-mismatch', severity: 'error' } as const;
const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
const percent = (value: number): string => `${Math.round(value * 1000) / 10} %`;

const countsFit = ({ source }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const counts = survey.counts;
  if (!counts) return [];
  const { of, ...states } = counts;
  const sum = total(Object.values(states));
  const place = source.place([...path, 'counts', 'of']);
  if (sum > of)
    return [{ ...error, what: `the counts add up to ${sum}, but there are only ${of} in all`, place }];
  if (!layout || layout.kind === 'survey grid') return [];
  const units = total(LAYOUT_RULES[layout.kind].rows(layout));
  if (of === units || of === units * (layout.pieces_per_unit ?? 1)) return [];
  const what = `counts are of ${of}, but the layout has ${units} units`;
  return [{ code: 'suspicious', severity: 'warning', what, place }];
};

const sharesFit = ({ source }: CheckContext, { path, survey }: Look): Problem[] => {
  const families = Object.values(survey.families ?? {});
  const shares = families.flatMap(({ share }) => (share === undefined ? [] : [share]));
  const sum = total(shares);
  const place = () => source.place([...path, 'families'], 'key');
  const cure = 'Shares are of the whole top, so together they make 100 %.';
  // Estimates by eye are rounded: 2 % either way is not worth a message.
  const slack = 0.02 + 1e-9;
  if (sum > 1 + slack)
    return [{ ...error, what: `the families' shares add up to ${percent(sum)}`, cure, place: place() }];
  if (shares.length === 0 || shares.length < families.length || sum >= 1 - slack) return [];
  return [{ ...error, what: `the families' shares add up to only ${percent(sum)}`, cure, place: place() }];
};

const lostFit = ({ source }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const families = Object.values(survey.families ?? {});
  const lost = families.flatMap((family) => (family.lost === undefined ? [] : [family.lost]));
  if (families.length === 0 || lost.length < families.length) return [];
  const sum = total(lost);
  // On a survey grid the map shows cells, while families count patches.
  const mapped = layout?.kind === 'survey grid' ? undefined : survey.units;
  const stated = survey.counts
    ? (survey.counts.lost ?? 0)
    : mapped?.flat().filter((state) => state === 'lost').length;
  if (stated === undefined || stated === sum) return [];
  const other = survey.counts ? 'the counts have' : 'the map shows';
  const place = source.place([...path, 'families'], 'key');
  return [{ ...error, what: `the families have ${sum} lost units together, but ${other} ${stated}`, place }];
};

/** Counts, shares and losses add up. */
export const checkSums: Check = (context) =>
  looks(context).flatMap((look) => [
    ...countsFit(context, look),
    ...sharesFit(context, look),
    ...lostFit(context, look),
  ]);
