import type { Check } from './check.ts';
import { checkDates, checkFollowups, checkTreated } from './followups.ts';
import { checkMaps } from './maps.ts';
import { checkPlaces } from './places.ts';
import { checkSize } from './size.ts';
import { checkAbsent, checkJoins, checkSums } from './sums.ts';
import { checkUnusual } from './unusual.ts';

/** Everything that is checked once each line on its own is right. */
export const CHECKS: readonly Check[] = [
  checkMaps,
  checkPlaces,
  checkJoins,
  checkSums,
  checkSize,
  checkDates,
  checkFollowups,
  checkTreated,
];

/** What is worth a second look, once nothing is wrong: neither faulty lines nor their stand-ins deserve one. */
export const SECOND_LOOKS: readonly Check[] = [checkAbsent, checkUnusual];
