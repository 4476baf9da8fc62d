import { resewn } from '../resewn.ts';
import { counted, type Job, type Operation, sideOf, treated } from './operation.ts';

/** Open joins, and one side of each unit that is to be sewn down again. */
const length = (job: Job): number => {
  const sides = treated(job, 'restitch').reduce((sum, each) => sum + sideOf(job, each) * each.group.count, 0);
  return resewn(job.plan).inches + sides;
};

const byMachine = ({ plan }: Job): boolean => plan.resewn.by === 'machine';

/** A seam in a closed quilt is closed by hand from the front; in an open one it is sewn from inside. */
export const SEAMS: readonly Operation[] = [
  counted('closing seams from the front', 'in', 'hours.seam.ladder', (job) =>
    byMachine(job) || job.inside ? 0 : length(job),
  ),
  counted('resewing joins by hand', 'in', 'hours.seam.hand', (job) =>
    !byMachine(job) && job.inside ? length(job) : 0,
  ),
  counted('resewing joins by machine', 'in', 'hours.seam.machine', (job) =>
    byMachine(job) ? length(job) : 0,
  ),
];
