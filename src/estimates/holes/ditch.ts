import type { JoiningLine } from '../../piecework/patterns.ts';
import type { Tally } from './landing.ts';
import type { Job } from './sewing.ts';
import { CLOTHS, type Cloth, hasOld } from './tops.ts';

/** Share of a ditch between two units that lands in the first: half, more where it can be planned into new cloth. */
export const lowSide = (one: Cloth, other: Cloth, newSide: number): number => {
  if (one === 'gone') return 0;
  if (other === 'gone') return 1;
  if (hasOld(one) === hasOld(other)) return 0.5;
  return hasOld(one) ? (1 - newSide) / 2 : (1 + newSide) / 2;
};

/** On sashed quilts every seam has a strip on one side, and the strip is old cloth: it takes its half of the ditch. */
const inStrips = ({ plan }: Job): number => (plan.quilt.piecework.kind === 'sashed' ? 0.5 : 0);

/** Inches of line in old and in new cloth, from the map where there is one. */
export const landLines = (lines: readonly JoiningLine[], job: Job, newSide: number, tally: Tally): void =>
  (job.tops.mapped ? onTheMap : byShares)(lines, job, newSide, tally);

const onTheMap = (lines: readonly JoiningLine[], job: Job, newSide: number, tally: Tally): void => {
  const { tops } = job;
  const strips = inStrips(job);
  for (const line of lines)
    for (const { units, length } of line.stretches) {
      const a = units[0];
      const b = units[1];
      if (a === undefined) tally.add('old', length);
      else if (b === undefined) tally.add(tops.at(a), length, a);
      else {
        const one = tops.at(a);
        const other = tops.at(b);
        const first = lowSide(one, other, newSide) * (1 - strips);
        tally.add('old', length * strips);
        tally.add(one, length * first, a);
        tally.add(other, length * (1 - strips - first), b);
      }
    }
};

/** By shares, as if the units of each kind lay anywhere. */
const byShares = (lines: readonly JoiningLine[], job: Job, newSide: number, tally: Tally): void => {
  const { share } = job.tops;
  const strips = inStrips(job);
  let between = 0;
  let within = 0;
  for (const line of lines)
    for (const { units, length } of line.stretches) {
      if (units.length === 0) tally.add('old', length);
      else if (units.length === 1) within += length;
      else {
        tally.add('old', length * strips);
        between += length * (1 - strips);
      }
    }
  for (const one of CLOTHS) {
    tally.add(one, within * share[one]);
    for (const other of CLOTHS)
      tally.add(one, 2 * between * share[one] * share[other] * lowSide(one, other, newSide));
  }
};
