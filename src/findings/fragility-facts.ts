import { GRADES } from '../casebook/scales.ts';
import { between, type Fact, type Facts, isSpan, type Span, shareBetween, span } from './fact.ts';
import { atLeast, type Cloth, governing, isGone, isLeft, worstLeft } from './old-cloth.ts';
import type { SurveyedFamily, SurveyedQuilt, UnitGroup } from './surveyed.ts';

const WORST = GRADES.length - 1;
const WEAK = GRADES.indexOf('weak');

const grade = ({ lo, hi }: Span): Fact => between(lo, hi, { min: 0, max: WORST });
const share = ({ lo, hi }: Span): Fact => shareBetween(lo, hi);

const weakFamilies = (quilt: SurveyedQuilt, cloth: Cloth, sure: boolean): readonly SurveyedFamily[] =>
  Object.values(quilt.families).filter(({ letter, fragility }) => {
    const left = isLeft(cloth, letter);
    if (left === false) return false;
    if (!sure) return (typeof fragility === 'number' ? fragility : fragility.hi) >= WEAK;
    return left === true && (typeof fragility === 'number' ? fragility : fragility.lo) >= WEAK;
  });

/** How strong the cloth of a top is, by finding id. `mark` is the share of the top from which cloth governs. */
export const fragilityFacts = (
  quilt: SurveyedQuilt,
  cloth: Cloth,
  mark: number,
): Readonly<Record<string, Fact>> => {
  const sure = weakFamilies(quilt, cloth, true);
  const perhaps = weakFamilies(quilt, cloth, false);
  const surveyed = Object.keys(quilt.families).length > 0;
  const inDesign = (families: readonly SurveyedFamily[], bound: 'lo' | 'hi'): number =>
    families.reduce(
      (sum, each) => sum + (typeof each.share === 'number' ? each.share : each.share[bound]),
      0,
    );
  return {
    governing_fragility: grade(governing(cloth, mark)),
    worst_fragility: grade(worstLeft(cloth)),
    weak_share: share(atLeast(cloth, WEAK)),
    failing_share: share(atLeast(cloth, WORST)),
    weak_families: surveyed ? between(sure.length, perhaps.length, { min: 0, max: Infinity }) : undefined,
    weak_families_share: surveyed ? shareBetween(inDesign(sure, 'lo'), inDesign(perhaps, 'hi')) : undefined,
  };
};

/** A span as wide as the scale itself says nothing. */
const told = (value: Fact, worst: number): Fact =>
  isSpan(value) && value.lo <= 0 && value.hi >= worst ? undefined : value;

/** What is known of one fabric family: `family.<id>`. All undefined where the letter is unknown or undefined. */
export const familyFacts = (quilt: SurveyedQuilt, letter: string | undefined): Facts => {
  const family = quilt.families[letter ?? ''];
  const gone = quilt.groups.filter(
    (group) => group.family === letter && isGone(group) && group.state === 'lost',
  );
  const units = (bound: 'least' | 'most'): number =>
    Math.round(gone.reduce((sum, group) => sum + group[bound], 0) * quilt.total);
  return {
    'family.fragility': family && told(family.fragility, GRADES.length - 1),
    'family.fibre': family?.fibre === 'unknown' ? undefined : family?.fibre,
    'family.dye_bleed': family?.dyeBleed,
    'family.self_destructing': family?.selfDestructing,
    'family.share': family && told(family.share, 1),
    'family.lost': family && span(units('least'), units('most')),
  };
};

/** What is known of a group of units, once for each of its marks: `unit.<id>`. A unit nobody has seen has no known state. */
export const unitFacts = ({ state, also = [] }: UnitGroup): readonly Facts[] =>
  [state, ...also].map((mark) => ({ 'unit.state': mark === 'unseen' ? undefined : mark }));
