import { GRADES } from '../casebook/scales.ts';
import { type Fact, type Facts, isSpan, span } from './fact.ts';
import { isGone } from './old-cloth.ts';
import type { SurveyedQuilt, UnitGroup } from './surveyed.ts';

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

/** What is known of a group of units: `unit.<id>`. A unit nobody has seen has no known state. */
export const unitFacts = (group: UnitGroup): Facts => ({
  'unit.state': group.state === 'unseen' ? undefined : group.state,
});
