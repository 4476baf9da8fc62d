/** The case a new studio starts with. Invented; its `expect` is checked when it is written. */
export const SAMPLE_NAME = 'pear-tree-ninepatch';

export const SAMPLE = `# An invented quilt to try things on. Change a line, run "mendwise decide ${SAMPLE_NAME}", and see.
# Only mendwise, case, quilt.size and survey.seen are required: what is not said is not known.
mendwise: 1
case: ${SAMPLE_NAME}          # also the name of this file
opened: 2026-03-02
client:
  ref: C-001                     # a reference, never a person's name
  wish: repair                   # or restore, conserve
  intended_use: guest_bed
  hung: no
  budget: 1200
  owners_agree: yes
  wanted_years: 8
quilt:
  title: Nine-patch spread, indigo and shirtings
  construction: pieced
  made: { about: 1948, sure: family account }
  size: { width: 64 in, height: 64 in }
  layout: { kind: edge to edge, rows: 8, columns: 8, finished: 8 in x 8 in, pieces_per_unit: 9 }
  batting: { kind: none }
  backing: { kind: own, fragility: sound, damaged: 0 % }
  binding: { fragility: sound, worn: 5 % }
  joining: { kind: none }
  weight: 2.9 lb
  sewn: { piecing: hand, stitches_per_inch: 8 }
history:
  - { use: regular_bed, years: 12, washing: hand }
  - { use: storage, years: 45 }
survey:
  seen: in hand                  # or: photos
  by: helper-a
  on: 2026-03-04
  families:                      # one letter for each fabric
    A: { name: indigo, fibre: cotton, fragility: worn, dye_bleed: none, self_destructing: no }
    B: { name: shirtings, fibre: cotton, fragility: sound, dye_bleed: none, self_destructing: no }
  units: |                       # . sound  w worn  e edge frayed  s split  h hole  x lost  - missing  ? not seen
    . . . e . . . .
    . . . . . . . .
    . . w . . . . .
    . . . . . e . .
    . . . . . . . .
    . w . . . . . .
    . . . . . . . .
    . . . . . . e .
  family_map: |
    A B A B A B A B
    B A B A B A B A
    A B A B A B A B
    B A B A B A B A
    A B A B A B A B
    B A B A B A B A
    A B A B A B A B
    B A B A B A B A
  joins: { inspected: 112, open: 17, thread: 16, cloth: 1, allowance: 0 }
  findings:                      # "mendwise explain" lists them all
    sewage_or_fuel: no
    rodent_waste: no
    live_pests: no
    pest_traces: none
    damp: no
    mould_area: 0 in2
    odour: none
    old_green_or_pesticide: no
    asthma_or_mould_allergy: no
    wash_wanted: no
    washing_planned: hand
    for_sale: no
    cut_up_wanted: no
    inscription: none
    tied_to_event: no
    museum_quality: no
    outstanding_work: no
    shattering_silk: 0 %
expect:                          # "mendwise cases --check" compares the answer with this
  standing: go_ahead
  treatment: reassemble
  because: [open-damage-grows-in-use, a-sound-backing-stays]
`;
