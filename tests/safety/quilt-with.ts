import { caseFrom } from '../decision/shipped.ts';

/** How each hazard is noted in a survey. */
export const NOTED: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
  mould: { mould_area: '60 in2' },
  'much mould': { mould_area: '700 in2' },
  damp: { damp: 'yes' },
  'live insects': { live_pests: 'yes' },
  'traces on wool': { pest_traces: 'cast_skins' },
  'rodent waste': { rodent_waste: 'yes' },
  'sewage or fuel': { sewage_or_fuel: 'yes' },
  poison: { old_green_or_pesticide: 'yes' },
  smell: { odour: 'in_the_room' },
};

/** Every question on safety asked, and nothing found. */
export const CLEAN = {
  sewage_or_fuel: 'no',
  rodent_waste: 'no',
  live_pests: 'no',
  pest_traces: 'none',
  damp: 'no',
  mould_area: '0 in2',
  odour: 'none',
  old_green_or_pesticide: 'no',
};

/** A quilt with these hazards noted, and with `rest` beside or in place of what the case says. */
export const quiltWith = (hazards: readonly string[], fragility: string, use: string, rest: object = {}) =>
  caseFrom({
    mendwise: 1,
    case: 'random',
    opened: '2026-03-02',
    client: { ref: 'C-900', intended_use: use, hung: use === 'display' ? 'yes' : 'no', owners_agree: 'yes' },
    quilt: {
      title: 'An invented quilt',
      construction: 'pieced',
      made: { about: 1950, sure: 'family account' },
      size: { width: '64 in', height: '64 in' },
      layout: { kind: 'edge to edge', rows: 8, columns: 8, finished: '8 in x 8 in' },
      batting: { kind: 'bonded', fibre: 'polyester' },
      backing: { kind: 'own', fragility: 'sound', damaged: '0 %' },
      joining: { kind: 'ties', gap: '8 in', missing: '10 %' },
      weight: '4 lb',
    },
    survey: {
      seen: 'in hand',
      on: '2026-03-03',
      families: {
        A: {
          fibre: hazards.includes('traces on wool') ? 'wool' : 'cotton',
          fragility,
          dye_bleed: 'none',
          share: '100 %',
        },
      },
      counts: { of: 64, hole: 3, lost: 1 },
      joins: { inspected: 112, open: 9, thread: 9, cloth: 0, allowance: 0 },
      findings: {
        ...CLEAN,
        // No price is ever this: they are rounded to tens.
        monetary_value: 853,
        ...Object.assign({}, ...hazards.map((name) => NOTED[name])),
      },
    },
    ...rest,
  });
