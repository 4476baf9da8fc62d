import type { Counts } from './damage.ts';
import { dueTable } from './due.ts';
import { countedIn, type Outlook } from './forecast.ts';
import { growths } from './growths.ts';
import type { PlannedQuilt, QuiltEvidence } from './model.ts';
import { posterior } from './posterior.ts';
import type { LifePrior } from './prior.ts';

/** What is known of a quilt, weighed once for all its plans. `fineness` multiplies nodes; only tests need another than 1. */
export function outlookOf(evidence: QuiltEvidence, prior: LifePrior, fineness = 1): Outlook {
  const weighed = posterior(evidence, prior, fineness);
  const shared = { posterior: weighed, growths: growths(weighed, prior, fineness), prior };
  const counts = { units: evidence.units, joins: evidence.joins };
  return { ...shared, due: dueTable(pieces(counts), countedIn(asFound(evidence), shared, counts), prior) };
}

/** 1 / Σ weight² / pieces, top and seams each counting for half. */
const pieces = ({ units, joins }: Counts): number => (joins > 0 ? 1 / (0.25 / units + 0.25 / joins) : units);

/** The quilt as it was found, whole: one count of parts for all its plans, so that less damage is always a longer wait. */
const asFound = ({ kinds, joins }: QuiltEvidence): PlannedQuilt => ({
  parts: kinds.map(({ share }, kind) => ({ name: '', kind, share, stretch: [] })),
  fresh: 0,
  seams: { left: joins > 0 ? 1 : 0, resewn: 0, mixed: 0, edge: 0, fresh: 0 },
  held: 1,
  sides: [],
  open: { cloth: 0, seams: 0 },
});
