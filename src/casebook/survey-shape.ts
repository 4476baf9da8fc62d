import { z } from 'zod';
import { readDate } from '../quantities/date.ts';
import { say } from '../source/quote.ts';
import type { FindingReader } from './fields.ts';
import { choice, count, date, share, text, yesNo } from './fields.ts';
import {
  mapRows,
  placeName,
  positionName,
  readFurther,
  readJoin,
  readUnits,
  withCounts,
} from './positions.ts';
import { fibre, fragility, group, laterQuiltShape } from './quilt-shape.ts';
import { CAUSES } from './scales.ts';

const family = group({
  name: text().exactOptional(),
  fibre: fibre().exactOptional(),
  fragility: fragility().exactOptional(),
  dye_bleed: choice([
    'none',
    'trace_with_detergent',
    'trace_with_water',
    'clear',
    'rubs_off',
  ]).exactOptional(),
  self_destructing: yesNo().exactOptional(),
  share: share().exactOptional(),
  lost: count().exactOptional(),
});

const familyLetter = z.string().superRefine((key, context) => {
  if (/^[A-Za-z]$/.test(key)) return;
  say(context, {
    code: 'map-letter',
    what: `"${key}" cannot name a family, because the map has room for one letter only`,
    cure: "Use a single letter, such as A, and give the cloth's name under name.",
  });
});

const map = <T>(read: (text: string) => T) =>
  z.unknown().transform((raw, context): T => {
    if (typeof raw === 'string' && raw.trim() !== '') return read(raw);
    return say(context, {
      code: 'wrong-kind',
      what: (name, value) => `${name} wants a map, one row a line, not ${value}`,
      cure: 'Put a | after the colon and write one row of marks on each line below it, indented.',
    });
  });

const counts = group({
  of: count(1),
  worn: count().exactOptional(),
  edge: count().exactOptional(),
  split: count().exactOptional(),
  hole: count().exactOptional(),
  lost: count().exactOptional(),
  missing: count().exactOptional(),
  stained: count().exactOptional(),
  bled: count().exactOptional(),
  repaired: count().exactOptional(),
  flattened: count().exactOptional(),
  unseen: count().exactOptional(),
});

/** A join that cannot be read keeps its words and an empty second name; the checks report it with its place. */
const openJoin = text().transform((written) => {
  const join = readJoin(written);
  if (join === undefined) return { between: [written, ''] as const };
  const between = [positionName(join.a), positionName(join.b)] as const;
  return join.cause === undefined ? { between } : { between, cause: join.cause };
});

/** A mark that cannot be read keeps its words as its place; the checks report it with where it stands. */
const furtherMark = text().transform(
  (written) => readFurther(written) ?? { at: written, state: 'sound' as const },
);

const joins = group({
  inspected: count().exactOptional(),
  open: count().exactOptional(),
  thread: count().exactOptional(),
  cloth: count().exactOptional(),
  allowance: count().exactOptional(),
  open_at: z.array(openJoin).exactOptional(),
}).transform(withCounts);

const places = z
  .unknown()
  .transform((raw, context) => {
    if (raw === 'units' || raw === 'joins') return raw;
    const list: unknown[] = Array.isArray(raw) ? raw : [raw];
    if (list.length > 0 && list.every((each) => typeof each === 'string' && each.trim() !== ''))
      return list.map((each) => placeName(String(each)));
    return say(context, {
      code: raw === undefined ? 'missing-key' : 'wrong-kind',
      what: (name, value) =>
        raw === undefined ? 'a cause does not say of what' : `${name} wants a list of places, not ${value}`,
      cure: 'Write places: [B3, C4|C5], or units for all that are damaged, or joins for all that are open.',
    });
  })
  // Editors complete from the words.
  .meta({ anyOf: [{ enum: ['units', 'joins'] }, { type: 'array', items: { type: 'string' } }] });

const cause = group({ places, count: count(1).exactOptional(), why: choice(CAUSES).exactOptional() });

/** The day it must be ready, beside the older `deadline_weeks`: a date does not go stale as weeks do. */
const DEADLINE = 'deadline';

const readDay = (value: unknown): string | undefined =>
  typeof value === 'string' ? readDate(value.trim()) : undefined;

const notADay = (name: string, value: string): string => `${name}: ${value} is not a date`;

const findings = (read: FindingReader) =>
  z.record(z.string(), z.unknown()).transform((raw, context) => {
    const known: Record<string, number | string | boolean> = {};
    for (const [id, value] of Object.entries(raw)) {
      if (value === null) continue;
      if (id === DEADLINE) {
        const day = readDay(value);
        if (day !== undefined) known[id] = day;
        else if (value !== 'unknown') say(context, { code: 'bad-date', what: notADay }, [id]);
        continue;
      }
      const reading = read(id, value);
      if ('value' in reading) known[id] = reading.value;
      else if ('problem' in reading) {
        const at = reading.problem.code === 'unknown-finding' || reading.problem.code === 'unknown-key';
        say(context, { ...reading.problem, ...(at ? { at: 'key' } : {}) }, [id]);
      }
    }
    return known;
  });

/** Measures that are no findings and may be told before anybody measures. */
const SIZES: readonly string[] = ['width', 'height'];

const knownBy = (read: FindingReader) =>
  z.record(z.string(), choice(['told', 'photos'], false)).superRefine((entries, context) => {
    for (const id of Object.keys(entries)) {
      const reading = read(id, 'unknown');
      if ('problem' in reading && !SIZES.includes(id)) say(context, { ...reading.problem, at: 'key' }, [id]);
    }
  });

const surveyFields = (read: FindingReader) =>
  ({
    by: text().exactOptional(),
    on: date().exactOptional(),
    families: z.record(familyLetter, family).exactOptional(),
    units: map(readUnits).exactOptional(),
    also: z.array(furtherMark).exactOptional(),
    family_map: map(mapRows).exactOptional(),
    counts: counts.exactOptional(),
    joins: joins.exactOptional(),
    causes: z.array(cause).exactOptional(),
    findings: findings(read).exactOptional(),
  }) as const;

const seen = () => choice(['in hand', 'photos'], false);

export const surveyShape = (read: FindingReader) =>
  group({ seen: seen(), ...surveyFields(read), known_by: knownBy(read).exactOptional() }).transform(
    (survey) => ({
      ...survey,
      findings: survey.findings ?? {},
    }),
  );

export const resurveyShape = (read: FindingReader) =>
  group({
    seen: seen().exactOptional(),
    opened: yesNo().exactOptional(),
    quilt: laterQuiltShape.exactOptional(),
    ...surveyFields(read),
  });
