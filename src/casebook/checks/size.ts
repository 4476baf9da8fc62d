import type { Problem } from '../../problems/problem.ts';
import { formatLength } from '../../quantities/length.ts';
import { LAYOUT_RULES } from '../positions.ts';
import type { Check } from './check.ts';

/** Quilts are not square and tapes stretch: beyond this the block size or the count is likely wrong. */
const SLACK = 1.02;

const SAID = { width: 'wide', height: 'high' } as const;

/** Units may fall short of the quilt (sashing, borders) but hardly exceed it. */
export const checkSize: Check = ({ source, quiltCase: { quilt } }) => {
  const extent = quilt.layout && LAYOUT_RULES[quilt.layout.kind].extent(quilt.layout);
  if (!extent) return [];
  return (['width', 'height'] as const).flatMap((side): Problem[] => {
    if (extent[side] <= quilt.size[side] * SLACK) return [];
    const [units, whole] = [extent[side], quilt.size[side]].map((inches) => formatLength(inches, 'inches'));
    return [
      {
        code: 'suspicious',
        severity: 'warning',
        what: `the units together are ${units} ${SAID[side]}, but the quilt is ${whole}`,
        cure: 'Check rows, columns and finished size (width first), and the size of the quilt.',
        place: source.place(['quilt', 'size', side]),
      },
    ];
  });
};
