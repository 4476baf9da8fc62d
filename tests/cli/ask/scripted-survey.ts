/** What the first message told and nobody asks again with the quilt in hand. */
export const BEFORE = {
  quilt: { title: 'Squares' },
  client: { ref: 'C-101', intended_use: 'guest_bed', damage: ['open_seams', 'holes'] },
};

/** The quilt of the measure: 16 columns by 13 rows, three fabrics, 13 bad squares, 140 open seams. */
const TYPED: Readonly<Record<string, string>> = {
  'survey.seen': '2',
  'survey.by': 'ha',
  'survey.findings.sewage_or_fuel': 'n',
  'survey.findings.rodent_waste': 'n',
  'survey.findings.live_pests': 'n',
  'survey.findings.pest_traces': '1',
  'survey.findings.damp': 'n',
  'survey.findings.mould_area': '0',
  'survey.findings.odour': '1',
  'survey.findings.old_green_or_pesticide': 'n',
  'survey.findings.asthma_or_mould_allergy': 'n',
  'quilt.size.width': '64',
  'quilt.size.height': '52',
  'quilt.construction': '1',
  'quilt.weight': '4',
  'quilt.sewn.piecing': '1',
  'quilt.sewn.stitches_per_inch': '8',
  'survey.findings.through_hole': 'n',
  'survey.findings.pulled_shut': 'n',
  'survey.findings.glazed_or_painted': 'n',
  'quilt.layout.kind': '1',
  'quilt.layout.rows': '13',
  'quilt.layout.columns': '16',
  'quilt.layout.finished': '4x4',
  'quilt.layout.pieces_per_unit': '1',
  'quilt.batting.kind': '2',
  'quilt.batting.fibre': '1',
  'quilt.batting.rated_gap': '2',
  'quilt.batting.migrated': '10',
  'quilt.batting.crumbling': 'n',
  'quilt.backing.kind': '1',
  'quilt.backing.fragility': '2',
  'quilt.backing.damaged': '5',
  'quilt.binding.fragility': '2',
  'quilt.binding.worn': '10',
  'quilt.joining.kind': '2',
  'quilt.joining.gap': '4',
  'quilt.joining.missing': '10',
  'survey.families': 'red,blue,white',
  'interview.families': '1',
  'interview.units': '1',
  'survey.units': 'A3x B3x C4h D9s E1x F2x G7h H8x I5s J6x K16x L12h M1x',
  // Rows of 13 and columns of 16 make so many; "all" says the same once the layout is told.
  'survey.joins.inspected': '387',
  'survey.joins.open': '140',
  'survey.joins.thread': '110',
  'survey.joins.cloth': '20',
  'survey.joins.allowance': '10',
  'interview.client': 'n',
};

/** Grade, fibre, dye and self-destroying of each fabric in one line; the map of fabrics as stripes that shift. */
export const typedFor = (id: string): string => {
  if (id.endsWith('.fragility') && id.includes('families')) return '2,1,1,n';
  if (id === 'survey.family_map.A')
    return Array.from({ length: 13 }, (_, row) => ['ABC+', 'BCA+', 'CAB+'][row % 3]).join('/');
  return TYPED[id] ?? '';
};
