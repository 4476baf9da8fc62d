import type { Problem } from '../../problems/problem.ts';
import { formatArea, formatLength, systemOf } from '../../quantities/length.ts';
import { LAYOUT_RULES } from '../positions.ts';
import { type Check, looks, quilts, written } from './check.ts';

/** Quilts are not square and tapes stretch: beyond this the block size or the count is likely wrong. */
const SLACK = 1.02;

const SAID = { width: 'wide', height: 'high' } as const;

/** Units may fall short of the quilt (sashing, borders) but hardly exceed it. */
const unitsFit: Check = ({ source, quiltCase: { quilt } }) => {
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

/** Width and height are measured with one tape. */
const oneTape: Check = (context) =>
  quilts(context).flatMap(({ path }): Problem[] => {
    const at = [...path, 'size', 'height'];
    const [width, height] = [[...path, 'size', 'width'], at].map((each) => written(context.source, each));
    if (typeof width !== 'string' || typeof height !== 'string') return [];
    const [one, other] = [systemOf(width), systemOf(height)];
    if (one === undefined || other === undefined || one === other) return [];
    const what = `the quilt is ${width} wide, but ${height} high: one in inches, the other in metres`;
    return [{ code: 'mixed-units', severity: 'error', what, place: context.source.place(at) }];
  });

/** Strips that leave no room for the units between them. */
const stripsFit: Check = ({ source, quiltCase: { quilt } }) => {
  const { layout, size } = quilt;
  if (layout?.kind !== 'sashed' || layout.sashing === undefined) return [];
  const { sashing } = layout;
  const sides = [
    { side: 'width', strips: layout.columns - 1 },
    { side: 'height', strips: layout.rows - 1 },
  ] as const;
  return sides.flatMap(({ side, strips }): Problem[] => {
    if (strips * sashing < size[side]) return [];
    const [all, whole] = [strips * sashing, size[side]].map((inches) => formatLength(inches, 'inches'));
    return [
      {
        code: 'out-of-range',
        severity: 'error',
        what: `${strips} strips alone are ${all} ${SAID[side]}, but the quilt is ${whole}: there is no room for units`,
        cure: 'Check rows, columns and sashing, and the size of the quilt.',
        place: source.place(['quilt', 'layout', 'sashing']),
      },
    ];
  });
};

/** Where the layers are held, no stretch without a fastening is nothing, and none is longer than the quilt. */
const gapFits: Check = ({ source, quiltCase: { quilt } }) => {
  const { joining, size } = quilt;
  const { kind, gap } = joining ?? {};
  if (kind === undefined || kind === 'none' || gap === undefined) return [];
  const longest = Math.max(size.width, size.height);
  if (gap > 0 && gap <= longest) return [];
  const what =
    gap > 0
      ? `the widest gap is ${formatLength(gap, 'inches')}, but the quilt is no longer than ${formatLength(longest, 'inches')}`
      : 'the widest gap is nothing, but there is always some cloth between two fastenings';
  const cure = 'Measure the widest distance between two ties or lines.';
  return [
    { code: 'out-of-range', severity: 'error', what, cure, place: source.place(['quilt', 'joining', 'gap']) },
  ];
};

/** A stain is no larger than the quilt. */
const areasFit: Check = (context) =>
  looks(context).flatMap(({ path, survey }): Problem[] => {
    const { width, height } = context.quiltCase.quilt.size;
    const mould = survey.findings?.mould_area;
    if (typeof mould !== 'number' || mould <= 2 * width * height * SLACK) return [];
    const [area, both] = [mould, 2 * width * height].map((each) => formatArea(each, 'inches'));
    const what = `mould_area is ${area}, but both faces of the quilt have only ${both}`;
    const place = context.source.place([...path, 'findings', 'mould_area']);
    return [{ code: 'out-of-range', severity: 'error', what, place }];
  });

/** Measures against each other. */
export const checkSize: Check = (context) =>
  [unitsFit, oneTape, stripsFit, gapFits, areasFit].flatMap((check) => check(context));
