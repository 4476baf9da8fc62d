import type { Problem } from '../../problems/problem.ts';
import { formatLength } from '../../quantities/length.ts';
import { formatWeight } from '../../quantities/measure.ts';
import type { Path } from '../../source/source.ts';
import type { LayoutSpec, Quilt, QuiltCase } from '../model.ts';
import { type Check, quilts } from './check.ts';

/** A value that may be right, at its place, with what is usual. */
interface Unusual {
  readonly path: Path;
  readonly what: string;
  readonly cure?: string;
}

type Watch<T> = (from: T) => readonly (Unusual | false | undefined)[];

const inches = (value: number): string => formatLength(value, 'inches');

/** Sides in inches. The largest batting sold is 120 in square (references: needlepointers.com); a doll's quilt is 12 in. */
const sides: Watch<Partial<Quilt>> = ({ size }) =>
  (['width', 'height'] as const).flatMap((side) => {
    const value = size?.[side];
    const said = side === 'width' ? 'wide' : 'high';
    const path = ['size', side];
    return [
      value !== undefined &&
        value > 130 && {
          path,
          what: `the quilt is ${inches(value)} ${said}; the largest beds take about 120 in`,
        },
      value !== undefined &&
        value < 12 && {
          path,
          what: `the quilt is only ${inches(value)} ${said}; even a doll's quilt is about 12 in`,
        },
    ];
  });

/** A unit of a layout; on a survey grid the finished size is that of a patch. */
const units: Watch<Partial<Quilt>> = ({ layout }) => {
  if (layout === undefined) return [];
  const strips = layout.sashing !== undefined && layout.kind !== 'sashed';
  return [
    strips && {
      path: ['layout', 'sashing'],
      what: `sashing is stated, but the layout is ${layout.kind}, which has no strips`,
      cure: 'Write kind: sashed, or take sashing out.',
    },
    ...oneUnit(layout),
  ];
};

const oneUnit: Watch<LayoutSpec> = (layout) => {
  if (layout.finished === undefined) return [];
  const { finished, kind, pieces_per_unit: pieces = 1, sashing } = layout;
  const path = ['layout', 'finished'];
  const [short, long] = [
    Math.min(finished.width, finished.height),
    Math.max(finished.width, finished.height),
  ];
  const side = Math.sqrt((finished.width * finished.height) / (kind === 'survey grid' ? 1 : pieces));
  return [
    long > 36 && { path, what: `one unit is ${inches(long)} long; blocks are seldom more than a yard` },
    short < 0.5 && { path, what: `one unit is only ${inches(short)} across` },
    pieces > 1 &&
      side < 0.25 && {
        path: ['layout', 'pieces_per_unit'],
        what: `${pieces} pieces in one unit of ${inches(finished.width)} by ${inches(finished.height)} would be less than 1/4 in square each`,
      },
    sashing !== undefined &&
      sashing > long && {
        path: ['layout', 'sashing'],
        what: `the strips are ${inches(sashing)} wide, wider than the units between them`,
      },
  ];
};

/** Printed ratings run from 1 1/2 in to 10 in (references: generations-quilt-patterns.com). */
const layers: Watch<Partial<Quilt>> = ({ batting, joining, sewn }) => {
  const rated = batting?.rated_gap;
  const gap = joining?.gap;
  const stitches = sewn?.stitches_per_inch;
  return [
    rated !== undefined &&
      rated > 12 && {
        path: ['batting', 'rated_gap'],
        what: `a batting rated for ${inches(rated)}; makers print 10 in at most`,
      },
    rated !== undefined &&
      rated < 1 && {
        path: ['batting', 'rated_gap'],
        what: `a batting rated for only ${inches(rated)}; makers print 1 1/2 in at least`,
      },
    gap !== undefined &&
      gap > 24 && { path: ['joining', 'gap'], what: `${inches(gap)} without anything that holds the layers` },
    gap !== undefined &&
      gap > 0 &&
      gap < 0.25 && { path: ['joining', 'gap'], what: `the layers are held every ${inches(gap)}` },
    // Fourteen is the finest on the published scale of hand quilting (references: apqs.com).
    stitches !== undefined &&
      stitches > 20 && {
        path: ['sewn', 'stitches_per_inch'],
        what: `${stitches} stitches per inch; the finest hand sews 14, a machine about 13`,
        cure: 'Count the stitches on the top of the seam only.',
      },
    stitches !== undefined &&
      stitches < 3 && {
        path: ['sewn', 'stitches_per_inch'],
        what: `only ${stitches} stitches per inch; seams have 6 to 13`,
      },
  ];
};

/** Ounces per square yard: one layer of quilting cotton has 4 to 5, a heavy comfort about 40. */
const weighed: Watch<Partial<Quilt>> = ({ weight, size }) => {
  if (weight === undefined || size === undefined) return [];
  const ounces = (weight * 16 * 36 ** 2) / (size.width * size.height);
  const path = ['weight'];
  const said = `${formatWeight(weight, 'inches')} on this size is ${ounces < 10 ? ounces.toFixed(1) : Math.round(ounces)} oz per square yard`;
  return [
    ounces < 3 && { path, what: `${said}, less than one layer of cotton` },
    ounces > 64 && { path, what: `${said}; a heavy comfort has about 40` },
  ];
};

const WATCHED: readonly Watch<Partial<Quilt>>[] = [sides, units, layers, weighed];

/** Bed covers from before 1700 are in museums. */
const OLD = 1700;

const ofTheCase: Watch<QuiltCase> = ({ quilt, client, approved, history = [] }) => {
  const about = quilt.made?.about;
  const wanted = client.wanted_years;
  const hours = approved?.hours;
  const years = history.reduce((sum, spell) => sum + spell.years, 0);
  return [
    about !== undefined &&
      about < OLD && { path: ['quilt', 'made', 'about'], what: `the quilt was made about ${about}` },
    wanted !== undefined &&
      wanted > 100 && { path: ['client', 'wanted_years'], what: `the client wants ${wanted} years of it` },
    hours !== undefined &&
      hours > 1000 && { path: ['approved', 'hours'], what: `${hours} hours were approved` },
    years > 250 && { path: ['history'], what: `the history adds up to ${years} years` },
  ];
};

/** Values that are possible, but more often a slip of the pen or a wrong unit. */
export const checkUnusual: Check = (context) => {
  const { source, quiltCase } = context;
  const found = [
    ...quilts(context).flatMap(({ path, quilt }) =>
      WATCHED.flatMap((watch) => watch(quilt)).map(
        (each) => each && { ...each, path: [...path, ...each.path] },
      ),
    ),
    ...ofTheCase(quiltCase),
  ];
  return found.flatMap((each): Problem[] => {
    if (each === false || each === undefined) return [];
    const { path, what, cure } = each;
    const place = source.place(path, path.length === 1 ? 'key' : undefined);
    return [
      { code: 'suspicious', severity: 'warning', what, place, ...(cure === undefined ? {} : { cure }) },
    ];
  });
};
