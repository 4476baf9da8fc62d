import type { Problem } from '../../problems/problem.ts';
import type { Quilt } from '../model.ts';
import { LAYOUT_RULES } from '../positions.ts';
import { type Check, type CheckContext, type Look, looks, quilts, written } from './check.ts';

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

/** What is said to be none, and the lines that would then have nothing to speak of. */
const PARTS = {
  batting: { said: 'there is no batting', of: ['fibre', 'rated_gap', 'migrated', 'crumbling'] },
  backing: { said: 'there is no backing', of: ['fragility', 'damaged'] },
  joining: { said: 'nothing holds the layers together', of: ['gap', 'missing'] },
} as const;

/** Lines about a part the quilt is said not to have. A share of none and a plain no say the same thing twice. */
export const checkAbsent: Check = (context) =>
  quilts(context).flatMap(({ path, quilt }) =>
    Object.entries(PARTS).flatMap(([name, { said, of }]): Problem[] => {
      const part = quilt[name as keyof Quilt & keyof typeof PARTS];
      if (part?.kind !== 'none') return [];
      const says = (line: string): boolean => {
        const value: unknown = Reflect.get(part, line);
        return value !== undefined && value !== 0 && value !== false;
      };
      return of.filter(says).map((line) => ({
        code: 'suspicious',
        severity: 'warning',
        what: `${said}, yet ${line} is stated`,
        cure: `Take ${line} out, or correct kind.`,
        place: context.source.place([...path, name, line]),
      }));
    }),
  );

const CAUSES = ['thread', 'cloth', 'allowance'] as const;

/** So many seams do not come to be all open by chance. */
const MANY = 20;

const counted = ({ source, quiltCase }: CheckContext, { path, survey, layout }: Look): Problem[] => {
  const joins = survey.joins;
  if (!joins) return [];
  const at = (name: string) => source.place([...path, 'joins', name]);
  const problems: Problem[] = [];
  const { inspected, open } = joins;
  const causes = CAUSES.flatMap((cause) => (joins[cause] === undefined ? [] : [joins[cause]]));
  const sum = causes.reduce((total, count) => total + count, 0);
  if (open !== undefined && (causes.length === CAUSES.length ? sum !== open : sum > open)) {
    const what = `thread, cloth and allowance add up to ${sum}, but ${open} joins are open`;
    problems.push({ ...error, what, place: at('open') });
  }
  if (open === undefined && inspected !== undefined && sum > inspected) {
    const what = `thread, cloth and allowance add up to ${sum}, but only ${inspected} joins were inspected`;
    problems.push({ ...error, what, place: at('inspected') });
  }
  if (open !== undefined && inspected !== undefined && open > inspected) {
    const what = `${open} joins are open, but only ${inspected} were inspected`;
    problems.push({ ...error, what, place: at('open') });
  }
  const total = layout && LAYOUT_RULES[layout.kind].joins(layout);
  const cloth = quiltCase.quilt.construction === 'wholecloth';
  if (inspected !== undefined && total !== undefined && !cloth && inspected > total) {
    const what = `${inspected} joins were inspected, but the layout has only ${total}`;
    problems.push({ ...error, what, place: at('inspected') });
  }
  const broken = open ?? sum;
  if (inspected === undefined && total !== undefined && !cloth && broken > total) {
    const what = `${broken} joins are open, but the layout has only ${total}`;
    problems.push({
      ...error,
      what,
      place: open === undefined ? source.place([...path, 'joins'], 'key') : at('open'),
    });
  }
  if (inspected !== undefined && inspected >= MANY && open === inspected) {
    const what = `all ${inspected} joins inspected are open`;
    const cure = 'Count under inspected every join looked at, the sound ones too.';
    problems.push({ code: 'suspicious', severity: 'warning', what, cure, place: at('inspected') });
  }
  const listed = joins.open_at?.length;
  const stated = written(source, [...path, 'joins', 'open']);
  if (listed !== undefined && typeof stated === 'number' && stated < listed) {
    const what = `${listed} open joins are listed under open_at, but open says ${stated}`;
    problems.push({ ...error, what, place: at('open') });
  } else if (listed !== undefined && typeof stated === 'number' && stated > listed) {
    const what = `open says ${stated}, but open_at lists only ${listed}`;
    problems.push({ code: 'suspicious', severity: 'warning', what, place: at('open') });
  }
  return problems;
};

/** Joins against each other and against the layout. */
export const checkJoins: Check = (context) => looks(context).flatMap((look) => counted(context, look));
