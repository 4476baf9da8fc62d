import { z } from 'zod';
import { say } from '../source/quote.ts';
import type { FindingReader } from './fields.ts';
import { choice, count, date, number, text, yesNo } from './fields.ts';
import type { QuiltCase } from './model.ts';
import { group, quiltShape } from './quilt-shape.ts';
import {
  ACTIONS,
  FOUND_OUTCOMES,
  HAZARDS,
  TOLD_DAMAGE,
  TOLD_EXTENT,
  type ToldDamage,
  type ToldExtent,
  TREATMENTS,
  USES,
} from './scales.ts';
import { resurveyShape, surveyShape } from './survey-shape.ts';

const money = () => number({ min: 0, max: 10_000_000, said: '0 and 10 million' });
const years = () => number({ min: 0, max: 400 });
const names = () => z.array(text());

export const formatLine = z.unknown().transform((raw, context): 1 => {
  if (raw === 1) return 1;
  const cure = 'Write mendwise: 1 as the first line.';
  if (raw === undefined)
    return say(context, { code: 'missing-key', what: 'the line mendwise: 1 is missing', cure });
  return say(context, { code: 'not-an-option', what: (_, value) => `there is no format ${value}`, cure });
});

/** Letters of any script, digits, and single dashes between them. Letters with loose accents are not among them. */
const SHAPE = /^[\p{L}\p{N}]+(-[\p{L}\p{N}]+)*$/u;
/** Names that Windows keeps for devices, whatever their ending (learn.microsoft.com, "Naming Files, Paths, and Namespaces"). */
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/** Characters, and bytes: file systems take 255 bytes, and a stamp or a helper's name may come on top. */
const MOST = 80;
const MOST_BYTES = 160;

/** Whether a case may be called so: the name becomes that of its file, on any machine it may be copied to. */
export const isCaseName = (name: string): boolean =>
  SHAPE.test(name) && !DEVICES.test(name) && name.length <= MOST && Buffer.byteLength(name) <= MOST_BYTES;

const caseName = text().superRefine((name, context) => {
  if (isCaseName(name)) return;
  say(context, { code: 'bad-name', what: `"${name}" cannot be the name of a case` });
});

const client = group({
  ref: text().exactOptional(),
  wish: choice(['repair', 'restore', 'conserve']).exactOptional(),
  intended_use: choice(USES).exactOptional(),
  hung: yesNo().exactOptional(),
  budget: money().exactOptional(),
  owners_agree: yesNo().exactOptional(),
  wanted_years: years().exactOptional(),
  damage: z.array(choice(Object.keys(TOLD_DAMAGE) as ToldDamage[], false)).exactOptional(),
  damage_extent: choice(Object.keys(TOLD_EXTENT) as ToldExtent[]).exactOptional(),
});

const spell = group({
  use: choice(USES, false),
  years: years(),
  washing: choice(['none', 'hand', 'machine']).exactOptional(),
});

const approved = group({
  on: date().exactOptional(),
  hours: number({ min: 0, max: 10_000 }).exactOptional(),
  price: money().exactOptional(),
});

const photo = group({ file: text(), of: text().exactOptional(), when: text().exactOptional() });

// Not a `group`: an expected treatment of nothing is something to expect, not a blank.
const expected = z.strictObject({
  standing: choice(['go_ahead', 'not_yet', 'refer', 'decline'], false).exactOptional(),
  treatment: choice(TREATMENTS, false).nullable().exactOptional(),
  because: names().exactOptional(),
  not_because: names().exactOptional(),
  provisional: yesNo().exactOptional(),
  refused_uses: z.array(choice(USES, false)).exactOptional(),
  actions: z.array(choice(ACTIONS, false)).exactOptional(),
});

/** The case-file contract. Gives a case as the model has it: inches, pounds, fractions, nothing blank. */
export const caseSchema = (readFinding: FindingReader) =>
  group({
    mendwise: formatLine,
    case: caseName,
    opened: date().exactOptional(),
    reference: yesNo().exactOptional(),
    client: client.exactOptional(),
    quilt: quiltShape,
    history: z.array(spell).exactOptional(),
    survey: surveyShape(readFinding),
    approved: approved.exactOptional(),
    resurveys: z.array(resurveyShape(readFinding)).exactOptional(),
    treated: z.array(treatedShape).exactOptional(),
    photos: z.array(photo).exactOptional(),
    expect: expected.exactOptional(),
    decisions: z.array(decisionShape).exactOptional(),
    completed: completedShape.exactOptional(),
    followups: z.array(followupShape).exactOptional(),
    log: z.array(logShape).exactOptional(),
  }).transform(
    (read): QuiltCase => ({
      ...read,
      client: read.client ?? {},
      resurveys: read.resurveys ?? [],
      photos: read.photos ?? [],
    }),
  );

/** Names that files and folders of a studio, or files beside a case, have for other reasons. */
const RESERVED: ReadonlySet<string> = new Set([
  'draft',
  'making',
  'history',
  'records',
  'lock',
  'tmp',
  'temp',
  'kept',
  'rules',
  'studio',
]);

/** Whether a name has a meaning of its own in a studio, so that nothing new may be called so. */
export const isReservedName = (name: string): boolean => RESERVED.has(name.toLowerCase());

/** Longer than any stretch of work one line can stand for: a year's mending. */
const MOST_HOURS = 2000;
/** Washed every day for years and still here: beyond that it is a slip of the pen. */
const MOST_WASHINGS = 2000;

/** When the work was done, and what was counted on the bench. */
const completedShape = group({
  on: date(),
  by: text().exactOptional(),
  treatment: choice(TREATMENTS).exactOptional(),
  holes: count().exactOptional(),
});

const openings = group({
  old_cloth: count().exactOptional(),
  old_joins: count().exactOptional(),
  junctions: count().exactOptional(),
  new_work: count().exactOptional(),
});

/** A quilt seen again, or asked about, after its repair. */
const followupShape = group({
  on: date(),
  by: text().exactOptional(),
  seen: choice(['in hand', 'photos', 'told']).exactOptional(),
  use: choice(USES).exactOptional(),
  washings: number({ min: 0, max: MOST_WASHINGS }).exactOptional(),
  washing: choice(['none', 'hand', 'machine']).exactOptional(),
  openings: openings.exactOptional(),
  repair_due: yesNo().exactOptional(),
  photos: z.array(text()).exactOptional(),
  choose_again: yesNo().exactOptional(),
  note: text().exactOptional(),
});

/** What was done about a hazard. Nothing of it may be left out, but what was found in older files: a stop is lifted by it. */
const treatedShape = group({
  hazard: choice(HAZARDS, false),
  how: text(),
  by: text(),
  on: date(),
  confirmed_by: text(),
  found: choice(FOUND_OUTCOMES, false).exactOptional(),
});

/** Hours as worked on one operation. */
const logShape = group({
  on: date().exactOptional(),
  by: text().exactOptional(),
  operation: text(),
  hours: number({ min: 0, max: MOST_HOURS }),
  count: number({ min: 0, max: 1_000_000 }).exactOptional(),
  note: text().exactOptional(),
});

const STANDINGS = ['go_ahead', 'not_yet', 'refer', 'decline'] as const;

/** How the studio charged and measured when a decision was recorded: a later change must not alter what was said. */
const practice = group({
  currency: text(),
  rate_per_hour: number({ min: 0, max: 1_000_000 }),
  minimum: number({ min: 0, max: 1_000_000_000 }),
  rounding: number({ min: 0, max: 1_000_000 }),
  deposit: number({ min: 0, max: 1 }),
  units: choice(['inches', 'metric'], false),
  washing: choice(['museum', 'studio'], false),
});

/**
 * A decision as it was taken: what was recommended and, where somebody chose otherwise, what and why. `rulebook` and
 * `findings` name the snapshots it was made from; an entry written by hand has none and cannot be made again.
 */
const decisionShape = group({
  on: date(),
  kind: choice(['recommended', 'otherwise', 'client'], false).exactOptional(),
  by: text().exactOptional(),
  standing: choice(STANDINGS, false).exactOptional(),
  treatment: choice(TREATMENTS, false).exactOptional(),
  chosen: choice(TREATMENTS, false).exactOptional(),
  because: text().exactOptional(),
  overrides: z.array(text()).exactOptional(),
  risk_note: text().exactOptional(),
  shown: z.array(choice(TREATMENTS, false)).exactOptional(),
  rulebook: text().exactOptional(),
  findings: text().exactOptional(),
  practice: practice.exactOptional(),
});
