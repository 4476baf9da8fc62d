import type { Quilt } from '../casebook/model.ts';
import type { Figures } from '../figures/model.ts';
import type { Plan } from '../plans/model.ts';

type Fastening = 'ties' | 'lines' | 'all_over';

/** How much there was of it in the whole quilt, worked out from the widest distance in it: knots, or inches of line. */
export interface OldJoining {
  readonly knots: number;
  readonly lines: number;
}

const area = ({ width, height }: Quilt['size']): number => width * height;

const AMOUNTS: Readonly<
  Record<
    Fastening,
    (size: Quilt['size'], gap: number | undefined, figures: Figures) => OldJoining | undefined
  >
> = {
  ties: (size, gap) => (gap === undefined ? undefined : { knots: area(size) / gap ** 2, lines: 0 }),
  // Lines both ways, as seams run.
  lines: (size, gap) => (gap === undefined ? undefined : { knots: 0, lines: (2 * area(size)) / gap }),
  all_over: (size, _, figures) => ({
    knots: 0,
    lines: area(size) * figures.number('stitching.old_all_over'),
  }),
};

/** Undefined where there was none, or where nobody said how far apart it was. */
export const oldJoining = (
  size: Quilt['size'],
  kind: Fastening | 'none' | undefined,
  gap: number | undefined,
  figures: Figures,
): OldJoining | undefined =>
  kind === undefined || kind === 'none' ? undefined : AMOUNTS[kind](size, gap, figures);

/** What is missing of it is put back, through its own holes, where the quilt is mended without any new joining. */
export const putsBack = ({ opens, joining, treatment }: Plan): boolean =>
  !opens && joining === 'none' && treatment !== 'leave';
