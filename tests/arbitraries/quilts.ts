import fc from 'fast-check';
import type { Written } from './cases.ts';

/** One of these, the first of them as a rule. */
const mostly = <T>(weight: number, usual: T, ...others: T[]): fc.Arbitrary<T> =>
  fc.oneof({ weight, arbitrary: fc.constant(usual) }, { weight: 1, arbitrary: fc.constantFrom(...others) });

const grade = fc.oneof(
  { weight: 12, arbitrary: fc.constantFrom('sound', 'worn') },
  { weight: 4, arbitrary: fc.constant('weak') },
  { weight: 1, arbitrary: fc.constantFrom('fragile', 'failing') },
);

const family: fc.Arbitrary<Written> = fc.record({
  fibre: mostly(9, 'cotton', 'wool', 'silk', 'knit'),
  fragility: grade,
  dye_bleed: mostly(9, 'none', 'trace_with_detergent'),
  self_destructing: mostly(19, 'no', 'yes'),
});

const BATTING = {
  migrated: mostly(4, '2 %', '8 %', '15 %', '38 %', '45 %'),
  crumbling: mostly(15, 'no', 'yes'),
};
const layers: fc.Arbitrary<Written> = fc
  .record({
    batting: fc.oneof(
      { weight: 1, arbitrary: fc.constant({ kind: 'none' }) },
      {
        weight: 3,
        arbitrary: fc.record({
          kind: fc.constantFrom('loose', 'bonded', 'needled'),
          fibre: fc.constantFrom('cotton', 'polyester', 'wool'),
          rated_gap: fc.constantFrom('6 in', '8 in', '10 in'),
          ...BATTING,
        }),
      },
    ),
    backing: fc.oneof(
      { weight: 1, arbitrary: fc.constant({ kind: 'none' }) },
      {
        weight: 6,
        arbitrary: fc.record({
          kind: fc.constant('own'),
          fragility: grade,
          damaged: mostly(4, '2 %', '10 %', '19 %', '24 %', '60 %'),
        }),
      },
    ),
    binding: fc.record({ fragility: grade, worn: fc.constantFrom('0 %', '10 %', '60 %') }),
    joining: fc.oneof(
      { weight: 1, arbitrary: fc.constant({ kind: 'none' }) },
      {
        weight: 6,
        arbitrary: fc.record({
          kind: fc.constantFrom('ties', 'lines', 'all_over'),
          gap: fc.constantFrom('1 in', '2 in', '4 in', '7 in', '12 in'),
          missing: mostly(3, '2 %', '12 %', '25 %', '60 %'),
        }),
      },
    ),
    weight: fc.constantFrom('2 lb', '4 lb'),
    sewn: fc.record({
      piecing: fc.constantFrom('hand', 'machine'),
      stitches_per_inch: fc.constantFrom(8, 10),
    }),
  })
  // Without a back nothing lies behind the top that could be quilted.
  .map((layers) =>
    layers.backing.kind === 'own'
      ? layers
      : { ...layers, batting: { kind: 'none' }, joining: { kind: 'none' } },
  );

const client: fc.Arbitrary<Written> = fc.record({
  wish: fc.constantFrom('repair', 'restore', 'conserve'),
  intended_use: fc.constantFrom('storage', 'display', 'guest_bed', 'regular_bed', 'child_bed'),
  hung: fc.constantFrom('yes', 'no'),
  budget: fc.constantFrom(300, 900, 4000),
  owners_agree: fc.constant('yes'),
  wanted_years: fc.constantFrom(1, 5, 20),
});

/** What was asked and is not the matter: no law of these is about what stops the work or sends it elsewhere. */
const HARMLESS = {
  ...Object.fromEntries(
    [
      'sewage_or_fuel',
      'rodent_waste',
      'live_pests',
      'damp',
      'old_green_or_pesticide',
      'tied_to_event',
      'museum_quality',
      'for_sale',
      'claim_of_others',
      'cut_up_wanted',
      'hidden_quilt',
      'wash_wanted',
      'glue_wanted',
      'through_hole',
    ].map((id) => [id, 'no']),
  ),
  pest_traces: 'none',
  mould_area: '0 in2',
  odour: 'none',
  inscription: 'none',
  shattering_silk: '0 %',
};

const state = fc.oneof(
  { weight: 30, arbitrary: fc.constant('.') },
  { weight: 2, arbitrary: fc.constantFrom('w', 'e', 's', 'h', 'x') },
);

/** A map of one mark a unit. */
const mapOf = (cell: fc.Arbitrary<string>, rows: number, columns: number): fc.Arbitrary<string> =>
  fc
    .array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows })
    .map((map) => map.map((row) => `${row.join(' ')}\n`).join(''));

/** Seams all looked at, few of them open as a rule. */
const joins = (total: number): fc.Arbitrary<Written> =>
  fc
    .oneof(
      { weight: 3, arbitrary: fc.integer({ min: 0, max: 2 }) },
      { weight: 1, arbitrary: fc.integer({ min: 0, max: Math.floor(total / 2) }) },
    )
    .chain((open) =>
      mostly(2, 0, open, Math.floor(open / 2)).map((cloth) => ({
        inspected: total,
        open,
        thread: open - cloth,
        cloth,
        allowance: 0,
      })),
    );

/**
 * Quilts as they come to a bench: every finding noted, a few things wrong. What these may have wrong is of the cloth,
 * the layers and the seams, so that laws about the work are seldom answered by a stop.
 */
export const plausible: fc.Arbitrary<Written> = fc
  .record({ rows: fc.integer({ min: 3, max: 6 }), columns: fc.integer({ min: 3, max: 6 }) })
  .chain(({ rows, columns }) =>
    fc
      .record({
        client,
        layers,
        construction: mostly(5, 'pieced', 'tied_comforter', 'log_cabin', 'applique'),
        families: fc.record({ A: family, B: family }),
        units: mapOf(state, rows, columns),
        family_map: mapOf(fc.constantFrom('A', 'A', 'B'), rows, columns),
        joins: joins(rows * (columns - 1) + columns * (rows - 1)),
      })
      .map(({ client, layers, construction, ...survey }) => ({
        mendwise: 1,
        case: 'random',
        opened: '2026-06-01',
        client,
        quilt: {
          construction,
          made: { about: 1950, sure: 'documented' },
          size: { width: `${columns * 12} in`, height: `${rows * 12} in` },
          layout: { kind: 'edge to edge', rows, columns, finished: '12 in x 12 in' },
          ...layers,
        },
        history: [{ use: 'guest_bed', years: 40, washing: 'hand' }],
        survey: { seen: 'in hand', by: 'helper-a', ...survey, findings: HARMLESS },
      })),
  );
