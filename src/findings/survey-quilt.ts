import type { Construction, Family, JoinSurvey, Quilt, Survey } from '../casebook/model.ts';
import { GRADES, type Grade } from '../casebook/scales.ts';
import type { Figures } from '../figures/model.ts';
import { layOut } from '../piecework/lay-out.ts';
import type { Piecework } from '../piecework/model.ts';
import { unitRows } from '../piecework/reading.ts';
import { memo } from '../quantities/memo.ts';
import { type Span, span } from './fact.ts';
import type { LatestLook, Seen } from './latest-look.ts';
import { type Looked, surveyGroups } from './survey-groups.ts';
import type { SurveyedFamily, SurveyedJoins, SurveyedQuilt } from './surveyed.ts';

/**
 * What the latest looks at a quilt say of it, worked out once. The top is its whole units: strips, borders and the
 * half units at the edge of a quilt set on point belong to no share. Expects a case that has been read and checked.
 */
export const surveyQuilt = ({ case: latest, gradeSeen }: LatestLook, figures: Figures): SurveyedQuilt => {
  const { size, layout, construction } = latest.quilt;
  const { findings: _answers, ...seen } = latest.survey;
  return surveyed({ ...seen, size, layout, construction, grades: gradeSeen.families, figures });
};

/** Of a survey all but its findings, and of a quilt what the survey is laid over. */
interface Asked extends Looked {
  readonly size: Quilt['size'];
  readonly layout: Quilt['layout'] | undefined;
  readonly construction: Construction | undefined;
  /** How each fabric was seen when it was graded. */
  readonly grades: Readonly<Record<string, Seen>>;
  readonly figures: Figures;
}

// Without it the questions of three cases take 44 % more processor time.
const surveyed = memo(
  32,
  ({ size, layout, construction, grades, figures, ...survey }: Asked): SurveyedQuilt => {
    const piecework = layOut(layout, size, construction);
    const positions = unitRows(piecework).map((row) => row.map((unit) => unit.at));
    const families = surveyFamilies(survey, grades);
    const { counts, causes } = survey;
    const counted = survey.units === undefined && counts !== undefined;
    const counting = counted && piecework.kind === 'survey grid' ? 'patches' : 'units';
    const units = positions.reduce((sum, row) => sum + row.length, 0);
    const total = counted ? counts.of : units;
    return {
      piecework,
      counting,
      total,
      size,
      construction,
      families,
      ...(causes === undefined ? {} : { causes }),
      groups: surveyGroups({
        survey,
        families,
        positions,
        total,
        rounding: figures.number('findings.share_rounding'),
        oneFabric: counting === 'patches' || total > units || (piecework.piecesPerUnit ?? 1) === 1,
      }),
      joins: surveyJoins({
        joins: survey.joins,
        piecework,
        patches: counting === 'patches' ? total : undefined,
        construction,
      }),
    };
  },
);

interface JoinsAsked {
  readonly joins: JoinSurvey | undefined;
  readonly piecework: Piecework;
  /** How many patches, where patches are counted and not units. */
  readonly patches: number | undefined;
  readonly construction: Construction | undefined;
}

const CAUSES = ['thread', 'cloth', 'allowance'] as const;

/** A whole cloth of which no seam is told has none that could open. */
const NO_SEAMS: SurveyedJoins = {
  total: 0,
  length: 0,
  inspected: 0,
  open: 0,
  thread: 0,
  cloth: 0,
  allowance: 0,
  openAt: [],
};

/** How many joins there are, how long, and what was seen of them. Counts the survey leaves out follow from the rest. */
const surveyJoins = ({ joins = {}, piecework, patches, construction }: JoinsAsked): SurveyedJoins => {
  if (construction === 'wholecloth' && Object.keys(joins).length === 0) return NO_SEAMS;
  const listed = joins.open_at ?? [];
  const byList = listed.length > 0;
  const open = joins.open ?? (byList ? listed.length : undefined);
  const counted = CAUSES.map((cause) => {
    if (joins[cause] !== undefined) return joins[cause];
    const whole = byList && listed.every((join) => join.cause !== undefined) && listed.length === open;
    return whole ? listed.filter((join) => join.cause === cause).length : undefined;
  });
  const named = counted.reduce<number>((sum, count) => sum + (count ?? 0), 0);
  const silent = counted.filter((count) => count === undefined).length;
  const left = open === undefined ? undefined : open - named;
  // With every open seam accounted for the other causes are none; with one cause unnamed it takes the rest.
  const [thread, cloth, allowance] = counted.map((count) => {
    if (count !== undefined || left === undefined || left < 0) return count;
    if (left === 0) return 0;
    return silent === 1 ? left : undefined;
  });
  return {
    ...extent(piecework, patches, construction),
    inspected: joins.inspected,
    open: open ?? (silent === 0 ? named : undefined),
    thread,
    cloth,
    allowance,
    openAt: listed.map(({ between: [a, b], cause }) => ({ a, b, cause })),
  };
};

const extent = (
  piecework: Piecework,
  patches: number | undefined,
  construction: Construction | undefined,
): { total: number; length: number } => {
  if (patches === undefined) {
    const total = piecework.joins.length;
    const sum = piecework.joins.reduce((all, join) => all + join.length, 0);
    return { total, length: total === 0 ? 0 : sum / total };
  }
  const area = (piecework.width * piecework.height) / patches;
  // n × n hexagons have (n − 1)(3n − 1) shared sides, n × n squares 2n(n − 1): geometry of the two tilings.
  const n = Math.sqrt(patches);
  const hexagons = construction === 'hexagon';
  return {
    total: Math.max(0, Math.round(hexagons ? (n - 1) * (3 * n - 1) : 2 * n * (n - 1))),
    length: hexagons ? Math.sqrt((2 * area) / (3 * Math.sqrt(3))) : Math.sqrt(area),
  };
};

const WORST = GRADES.length - 1;

/** A grade as an index. In photos cloth never looks worse than it is, so the grade seen is the best it can be. */
export const seenGrade = (grade: Grade | undefined, seen: Seen): number | Span => {
  const best = grade === undefined ? 0 : GRADES.indexOf(grade);
  return grade === undefined || seen === 'photos' ? span(best, WORST) : best;
};

const BLEEDS = ['none', 'trace_with_detergent', 'trace_with_water', 'clear', 'rubs_off'] as const;

/** Shares counted on the family map where there is one, else as stated; what is not stated takes what others leave. */
const sharesOf = (
  letters: readonly string[],
  families: Readonly<Record<string, Family>>,
  map: Survey['family_map'],
): Readonly<Record<string, number | Span>> => {
  const marks = map?.flat() ?? [];
  if (marks.length > 0) {
    const counted = (letter: string) => marks.filter((mark) => mark === letter).length / marks.length;
    return Object.fromEntries(letters.map((letter) => [letter, counted(letter)]));
  }
  const stated = letters.map((letter) => families[letter]?.share);
  const sum = stated.reduce<number>((total, share) => total + (share ?? 0), 0);
  const silent = stated.filter((share) => share === undefined).length;
  const left = Math.max(0, 1 - sum);
  // Shares are rounded by whoever states them: together they may say a little more than the whole.
  const scale = Math.max(1, sum);
  return Object.fromEntries(
    letters.map((letter, index) => {
      const share = stated[index];
      if (share !== undefined) return [letter, share / scale];
      return [letter, silent === 1 && letters.length === 1 ? 1 : span(0, left)];
    }),
  );
};

/** Every fabric family stated or drawn on the family map, by letter. */
const surveyFamilies = (
  survey: Looked,
  seen: Readonly<Record<string, Seen>>,
): Readonly<Record<string, SurveyedFamily>> => {
  const stated = survey.families ?? {};
  const drawn = survey.family_map?.flat() ?? [];
  const letters = [...new Set([...Object.keys(stated), ...drawn])].sort();
  const shares = sharesOf(letters, stated, survey.family_map);
  return Object.fromEntries(
    letters.map((letter): [string, SurveyedFamily] => {
      const family = stated[letter] ?? {};
      return [
        letter,
        {
          letter,
          name: family.name ?? `fabric ${letter}`,
          fibre: family.fibre ?? 'unknown',
          fragility: seenGrade(family.fragility, seen[letter] ?? survey.seen),
          dyeBleed: family.dye_bleed === undefined ? undefined : BLEEDS.indexOf(family.dye_bleed),
          selfDestructing: family.self_destructing,
          share: shares[letter] ?? span(0, 1),
        },
      ];
    }),
  );
};
