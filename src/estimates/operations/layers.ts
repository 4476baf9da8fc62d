import { type OldJoining, oldJoining, putsBack } from '../old-joining.ts';
import { counted, type Job, type Operation } from './operation.ts';

const isRelayered = ({ plan, rebound }: Job): boolean => rebound && plan.joining !== 'none';

/** The old joining that is put back where nothing new takes its place. */
const missing = ({ plan, found, figures }: Job): OldJoining => {
  const share = found?.joining?.missing ?? 0;
  const old = oldJoining(plan.quilt.size, found?.joining?.kind, found?.joining?.gap, figures);
  return putsBack(plan) && old !== undefined
    ? { knots: old.knots * share, lines: old.lines * share }
    : { knots: 0, lines: 0 };
};

/** Layers that stay together are pinned all the same before lines are sewn through them. */
const isPinned = ({ plan, rebound }: Job): boolean => !rebound && plan.joining === 'lines';

export const LAYERS: readonly Operation[] = [
  counted('putting back missing ties', 'ties', 'hours.tie', (job) => missing(job).knots),
  counted('putting back missing lines by hand', 'in', 'hours.line.hand', (job) => missing(job).lines),
  counted('making up the backing', 'backings', 'hours.backing', ({ plan }) =>
    plan.backing === 'add' || plan.backing === 'replace' ? 1 : 0,
  ),
  counted('layering and basting', 'bed quilts', 'hours.baste', (job) =>
    isRelayered(job) ? job.bedQuilts : 0,
  ),
  counted('pinning the layers', 'bed quilts', 'hours.pin', (job) => (isPinned(job) ? job.bedQuilts : 0)),
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
