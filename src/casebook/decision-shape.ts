import { z } from 'zod';
import { choice, date, number, text } from './fields.ts';
import { group } from './group.ts';
import { TREATMENTS } from './scales.ts';

const STANDINGS = ['go_ahead', 'not_yet', 'refer', 'decline'] as const;

/** How the studio charged and measured when a decision was recorded: a later change must not alter what was said. */
const practice = group({
  currency: text(),
  rate_per_hour: number({ min: 0, max: 1_000_000 }),
  minimum: number({ min: 0, max: 1_000_000_000 }),
  rounding: number({ min: 0, max: 1_000_000 }),
  deposit: number({ min: 0, max: 1 }),
  units: choice(['inches', 'metric'], false),
  washing: choice(['museum', 'studio'], false),
});

/**
 * A decision as it was taken: what was recommended and, where somebody chose otherwise, what and why. `rulebook` and
 * `findings` name the snapshots it was made from; an entry written by hand has none and cannot be made again.
 */
export const decisionShape = group({
  on: date(),
  kind: choice(['recommended', 'otherwise', 'client'], false).exactOptional(),
  by: text().exactOptional(),
  standing: choice(STANDINGS, false).exactOptional(),
  treatment: choice(TREATMENTS, false).exactOptional(),
  chosen: choice(TREATMENTS, false).exactOptional(),
  because: text().exactOptional(),
  overrides: z.array(text()).exactOptional(),
  risk_note: text().exactOptional(),
  shown: z.array(choice(TREATMENTS, false)).exactOptional(),
  rulebook: text().exactOptional(),
  findings: text().exactOptional(),
  practice: practice.exactOptional(),
});
