import { counted, type Operation, treated } from './operation.ts';

/** Every quilt is looked at and reported on, even one that is left as it is. */
export const PAPERWORK: readonly Operation[] = [
  counted('intake, photographs and survey', 'quilt', 'hours.survey', () => 1),
  counted(
    'finding fabrics to match',
    'fabrics',
    'hours.fabric_search',
    (job) => new Set(treated(job, 'replace', 'patch_over').map(({ group }) => group.family)).size,
  ),
];

export const REPORT: readonly Operation[] = [
  counted('report, packing and messages', 'quilt', 'hours.report', () => 1),
];
