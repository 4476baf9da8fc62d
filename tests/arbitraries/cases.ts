import fc from 'fast-check';

/** A case as it would be written: only what somebody noted. Absent lines are unknown. */
export type Written = Record<string, unknown>;

/** Some of these lines, each noted as likely as not. */
const noted = (shape: Record<string, fc.Arbitrary<unknown>>): fc.Arbitrary<Written> =>
  fc.record(shape, { requiredKeys: [] });

/** All of these lines. */
const all = (shape: Record<string, fc.Arbitrary<unknown>>): fc.Arbitrary<Written> => fc.record(shape);

const yesNo = fc.constantFrom('yes', 'no');
/** Hazards and rarities are seldom there: with even odds hardly a case would ever go ahead. */
const seldom = fc.oneof(
  { weight: 19, arbitrary: fc.constant('no') },
  { weight: 1, arbitrary: fc.constant('yes') },
);
const mostly = <T>(usual: T, ...others: T[]): fc.Arbitrary<T> =>
  fc.oneof(
    { weight: 8, arbitrary: fc.constant(usual) },
    { weight: 1, arbitrary: fc.constantFrom(...others) },
  );
const share = fc.constantFrom('0 %', '4 %', '8 %', '12 %', '18 %', '24 %', '35 %', '45 %', '80 %');
const length = fc.constantFrom('1 in', '2 in', '4 in', '6 1/2 in', '9 in', '16 in');
const grade = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom('sound', 'worn', 'weak') },
  { weight: 1, arbitrary: fc.constantFrom('fragile', 'failing') },
);

const client = noted({
  wish: fc.constantFrom('repair', 'restore', 'conserve'),
  intended_use: fc.constantFrom(
    'storage',
    'display',
    'guest_bed',
    'regular_bed',
    'child_bed',
    'infant_sleep',
  ),
  hung: yesNo,
  budget: fc.constantFrom(0, 150, 900, 4000),
  owners_agree: mostly('yes', 'no'),
  wanted_years: fc.constantFrom(1, 5, 20),
});

const CONSTRUCTIONS = ['pieced', 'summer_spread', 'tied_comforter', 'log_cabin', 'crazy', 't_shirt'] as const;

const parts = noted({
  construction: fc.constantFrom(...CONSTRUCTIONS),
  made: all({ about: mostly(1950, 1880, 1925, 1995) }),
  batting: noted({
    kind: fc.constantFrom('none', 'loose', 'bonded', 'needled'),
    fibre: fc.constantFrom('cotton', 'wool', 'polyester'),
    rated_gap: length,
    migrated: share,
    crumbling: seldom,
  }),
  backing: noted({ kind: mostly('own', 'none'), fragility: grade, damaged: share }),
  binding: noted({ fragility: grade, worn: share }),
  joining: noted({
    kind: fc.constantFrom('none', 'ties', 'lines', 'all_over'),
    gap: length,
    missing: share,
  }),
  weight: fc.constantFrom('3 lb', '9 lb'),
  sewn: noted({ piecing: fc.constantFrom('hand', 'machine'), stitches_per_inch: fc.constantFrom(6, 10) }),
});

/** What may be noted of a quilt besides its map. */
export const FINDINGS: Record<string, fc.Arbitrary<unknown>> = {
  sewage_or_fuel: seldom,
  rodent_waste: seldom,
  live_pests: seldom,
  pest_traces: mostly('none', 'cast_skins', 'grazing'),
  damp: seldom,
  mould_area: mostly('0 in2', '30 in2', '900 in2'),
  odour: mostly('none', 'on_unfolding', 'in_the_room'),
  old_green_or_pesticide: seldom,
  inscription: mostly('none', 'initials', 'names_and_date'),
  tied_to_event: seldom,
  museum_quality: seldom,
  outstanding_work: seldom,
  for_sale: seldom,
  cut_up_wanted: seldom,
  wash_wanted: yesNo,
  shattering_silk: mostly('0 %', '6 %', '30 %'),
  monetary_value: mostly(50, 400, 20_000),
  through_hole: seldom,
  hidden_quilt: seldom,
  old_holes_sound: yesNo,
};

const family = noted({
  fibre: mostly('cotton', 'wool', 'silk', 'knit', 'unknown'),
  fragility: grade,
  dye_bleed: mostly('none', 'trace_with_water', 'rubs_off'),
  self_destructing: seldom,
});

const marks = fc.oneof(
  { weight: 24, arbitrary: fc.constant('.') },
  { weight: 4, arbitrary: fc.constantFrom('w', 'e', 's', 'h', 'x', '-', 'p', 'f', 't', 'b') },
  { weight: 1, arbitrary: fc.constant('?') },
);

const mapOf = (cell: fc.Arbitrary<string>, rows: number, columns: number): fc.Arbitrary<string> =>
  fc
    .array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows })
    .map((map) => `${map.map((row) => row.join(' ')).join('\n')}\n`);

/** Open joins never outnumber those looked at, nor causes the open ones; an r by c grid has r(c-1) + c(r-1). */
const joinsOf = (rows: number, columns: number): fc.Arbitrary<Written> => {
  const total = rows * (columns - 1) + columns * (rows - 1);
  return fc
    .integer({ min: Math.min(4, total), max: total })
    .chain((inspected) =>
      fc
        .integer({ min: 0, max: inspected })
        .chain((open) =>
          fc
            .integer({ min: 0, max: open })
            .map((thread) => ({ inspected, open, thread, cloth: open - thread, allowance: 0 })),
        ),
    );
};

interface Grid {
  readonly rows: number;
  readonly columns: number;
}

const surveyOf = ({ rows, columns }: Grid): fc.Arbitrary<Written> =>
  fc.record(
    {
      seen: mostly('in hand', 'photos'),
      families: all({ A: family, B: family }),
      units: mapOf(marks, rows, columns),
      family_map: mapOf(fc.constantFrom('A', 'B'), rows, columns),
      joins: joinsOf(rows, columns),
      findings: noted(FINDINGS),
    },
    { requiredKeys: ['seen', 'families', 'findings'] },
  );

/** Random quilts of a few units: small, so that laws can be tried on many. */
export const written: fc.Arbitrary<Written> = fc
  .record({ rows: fc.integer({ min: 2, max: 4 }), columns: fc.integer({ min: 2, max: 4 }) })
  .chain((grid) =>
    all({
      client,
      quilt: parts,
      survey: surveyOf(grid),
    }).map(({ client: who, quilt, survey }) => ({
      mendwise: 1,
      case: 'random',
      opened: '2026-06-01',
      client: who,
      quilt: {
        ...(quilt as Written),
        size: { width: `${grid.columns * 10} in`, height: `${grid.rows * 10} in` },
        layout: { kind: 'edge to edge', ...grid, finished: '10 in x 10 in' },
      },
      survey,
    })),
  );
