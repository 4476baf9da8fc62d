import type { Family, Survey } from '../casebook/model.ts';
import { GRADES, type Grade } from '../casebook/scales.ts';
import { type Span, span } from './fact.ts';
import type { Seen } from './latest-look.ts';
import type { SurveyedFamily } from './surveyed.ts';

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
export const surveyFamilies = (
  survey: Survey,
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
