import { z } from 'zod';
import {
  choice,
  count,
  distance,
  length,
  number,
  share,
  text,
  weight,
  widthByHeight,
  yesNo,
} from './fields.ts';
import type { Construction, Fibre } from './model.ts';
import { positionName } from './positions.ts';
import { GRADES } from './scales.ts';

const CONSTRUCTIONS = [
  'pieced',
  'summer_spread',
  'tied_comforter',
  'wholecloth',
  'crazy',
  'foundation',
  'string',
  'log_cabin',
  'hexagon',
  'applique',
  'puffed_squares',
  'yo_yo',
  'cathedral_window',
  't_shirt',
  'double_knit',
] as const satisfies readonly Construction[];

const FIBRES = [
  'cotton',
  'linen',
  'wool',
  'silk',
  'polyester',
  'blend',
  'knit',
] as const satisfies readonly Fibre[];

export const fibre = () => choice(FIBRES);
export const fragility = () => choice(GRADES);

/** The largest quilt in units of an inch: no map has more rows, and no memory more units than that squared. */
const MOST_ROWS = 400;

/** An empty line and the word "unknown" both say that nobody knows: the same as not saying anything. */
const isBlank = (value: unknown): boolean =>
  value === null || (typeof value === 'string' && value.trim().toLowerCase() === 'unknown');

const withoutBlanks =
  (names: readonly string[]) =>
  (value: unknown): unknown => {
    if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
    // Only names known here: a misspelt one must still be reported, whatever it holds.
    return Object.fromEntries(
      Object.entries(value).filter(([name, inner]) => !(names.includes(name) && isBlank(inner))),
    );
  };

/** A group of named lines in a case file: no other names, and what is blank or unknown counts as absent. */
export const group = <S extends z.ZodRawShape>(shape: S) =>
  z.preprocess(withoutBlanks(Object.keys(shape)), z.strictObject(shape));

const quiltFields = {
  title: text().exactOptional(),
  construction: choice(CONSTRUCTIONS).exactOptional(),
  made: group({
    about: number({ min: 1600, max: 2100 }).exactOptional(),
    sure: choice(['family account', 'inscribed', 'documented', 'guess']).exactOptional(),
  }).exactOptional(),
  layout: group({
    kind: choice(['edge to edge', 'sashed', 'on point', 'survey grid'], false),
    rows: count(1, MOST_ROWS),
    columns: count(1, MOST_ROWS),
    finished: widthByHeight().exactOptional(),
    pieces_per_unit: count(1).exactOptional(),
    sashing: length().exactOptional(),
  }).exactOptional(),
  batting: group({
    kind: choice(['none', 'loose', 'bonded', 'needled']).exactOptional(),
    fibre: fibre().exactOptional(),
    rated_gap: length().exactOptional(),
    migrated: share().exactOptional(),
    crumbling: yesNo().exactOptional(),
  }).exactOptional(),
  backing: group({
    kind: choice(['own', 'none']).exactOptional(),
    fragility: fragility().exactOptional(),
    damaged: share().exactOptional(),
  }).exactOptional(),
  binding: group({
    fragility: fragility().exactOptional(),
    worn: share().exactOptional(),
  }).exactOptional(),
  joining: group({
    kind: choice(['none', 'ties', 'lines', 'all_over']).exactOptional(),
    gap: distance().exactOptional(),
    missing: share().exactOptional(),
  }).exactOptional(),
  weight: weight().exactOptional(),
  sewn: group({
    piecing: choice(['hand', 'machine']).exactOptional(),
    stitches_per_inch: number({ min: 1, max: 40 }).exactOptional(),
  }).exactOptional(),
  must_stay: z.array(text().transform(positionName)).exactOptional(),
} as const;

const size = group({ width: length(), height: length() });

export const quiltShape = group({ size, ...quiltFields });

/** What a later look may correct: any part of the quilt, none of it required. */
export const laterQuiltShape = group({ size: size.exactOptional(), ...quiltFields });
