import { counted, type Job, type Operation } from './operation.ts';

const isRelayered = ({ plan, rebound }: Job): boolean => rebound && plan.joining !== 'none';

export const LAYERS: readonly Operation[] = [
  counted('making up the backing', 'backings', 'hours.backing', ({ plan }) =>
    plan.backing === 'add' || plan.backing === 'replace' ? 1 : 0,
  ),
  counted('layering and basting', 'bed quilts', 'hours.baste', (job) =>
    isRelayered(job) ? job.bedQuilts : 0,
  ),
  counted('ties and tacks', 'ties', 'hours.tie', ({ points }) => points),
  counted('lines by machine', 'in', 'hours.line.machine', ({ plan, lines }) =>
    plan.sewnBy === 'machine' ? lines : 0,
  ),
  counted('lines by hand', 'in', 'hours.line.hand', ({ plan, lines }) =>
    plan.sewnBy === 'hand' ? lines : 0,
  ),
];

export const EDGES: readonly Operation[] = [
  counted('making and attaching the binding', 'quilt', 'hours.binding.make', ({ rebound }) =>
    rebound ? 1 : 0,
  ),
  counted('finishing the binding by hand', 'in', 'hours.binding.finish', ({ rebound, perimeter }) =>
    rebound ? perimeter : 0,
  ),
  counted('hanging sleeve', 'sleeves', 'hours.sleeve', ({ hung, plan }) =>
    hung && plan.treatment !== 'leave' ? 1 : 0,
  ),
];
