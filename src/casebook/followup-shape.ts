import { z } from 'zod';
import { choice, count, date, number, text, yesNo } from './fields.ts';
import { group } from './group.ts';
import { HAZARDS, TREATMENTS, USES } from './scales.ts';

/** Longer than any stretch of work one line can stand for: a year's mending. */
const MOST_HOURS = 2000;
/** Washed every day for years and still here: beyond that it is a slip of the pen. */
const MOST_WASHINGS = 2000;

/** When the work was done, and what was counted on the bench. */
export const completedShape = group({
  on: date(),
  by: text().exactOptional(),
  treatment: choice(TREATMENTS).exactOptional(),
  holes: count().exactOptional(),
});

const openings = group({
  old_cloth: count().exactOptional(),
  old_joins: count().exactOptional(),
  junctions: count().exactOptional(),
  new_work: count().exactOptional(),
});

/** A quilt seen again, or asked about, after its repair. */
export const followupShape = group({
  on: date(),
  by: text().exactOptional(),
  seen: choice(['in hand', 'photos', 'told']).exactOptional(),
  use: choice(USES).exactOptional(),
  washings: number({ min: 0, max: MOST_WASHINGS }).exactOptional(),
  washing: choice(['none', 'hand', 'machine']).exactOptional(),
  openings: openings.exactOptional(),
  repair_due: yesNo().exactOptional(),
  photos: z.array(text()).exactOptional(),
  choose_again: yesNo().exactOptional(),
  note: text().exactOptional(),
});

/** What was done about a hazard. Nothing of it may be left out: a stop is lifted by it. */
export const treatedShape = group({
  hazard: choice(HAZARDS, false),
  how: text(),
  by: text(),
  on: date(),
  confirmed_by: text(),
});

/** Hours as worked on one operation. */
export const logShape = group({
  on: date().exactOptional(),
  by: text().exactOptional(),
  operation: text(),
  hours: number({ min: 0, max: MOST_HOURS }),
  count: number({ min: 0, max: 1_000_000 }).exactOptional(),
  note: text().exactOptional(),
});
