import { expect, test } from 'vitest';
import { type Prompter, runQuestionLoop } from '../../../src/interview/question-loop.ts';
import { SURVEY } from '../../../src/interview/survey.ts';
import { validateAnswers } from '../../../src/interview/validate-answers.ts';
import { vocabulary } from '../../findings/vocabulary-fixture.ts';

/** What the first message told and nobody asks again with the quilt in hand. */
const BEFORE = {
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
  'survey.joins.inspected': 'all',
  'survey.joins.open': '140',
  'survey.joins.thread': '110',
  'survey.joins.cloth': '20',
  'survey.joins.allowance': '10',
  'interview.client': 'n',
};

/** Grade, fibre, dye and self-destroying of each fabric in one line; the map of fabrics as stripes that shift. */
const typedFor = (id: string): string => {
  if (id.endsWith('.fragility') && id.includes('families')) return '2,1,1,n';
  if (id === 'survey.family_map.A')
    return Array.from({ length: 13 }, (_, row) => ['ABC+', 'BCA+', 'CAB+'][row % 3]).join('/');
  return TYPED[id] ?? '';
};

const effort = async (known: object) => {
  const asked: string[] = [];
  let keys = 0;
  const prompter: Prompter = {
    tell: () => undefined,
    ask: async (question, fault) => {
      const raw = typedFor(question.id);
      expect(fault(raw)?.what, question.id).toBeUndefined();
      asked.push(question.id);
      // Every line ends with Enter.
      keys += raw.length + 1;
      return { kind: 'answer', raw };
    },
  };
  const said = await runQuestionLoop({
    interview: SURVEY,
    vocabulary,
    known: known as Record<string, unknown>,
    said: {},
    prompter,
    confirmed: async () => undefined,
    enough: async () => false,
  });
  return { asked, keys, said };
};

test('a survey of 208 squares takes at most 60 prompts and 450 keystrokes', async () => {
  const { asked, keys, said } = await effort(BEFORE);
  const { case: quiltCase } = validateAnswers(
    { ...BEFORE, ...said, quilt: { ...BEFORE.quilt, ...Object(said.quilt) } },
    vocabulary,
  );
  const units = quiltCase?.survey.units?.flat() ?? [];
  expect(units).toHaveLength(208);
  expect(units.filter((state) => state !== 'sound')).toHaveLength(13);
  expect(quiltCase?.survey.joins).toMatchObject({ inspected: 13 * 15 + 12 * 16, open: 140 });
  // Three fabrics, each on about a third of the squares.
  for (const letter of ['A', 'B', 'C'])
    expect(
      Math.abs(
        (quiltCase?.survey.family_map?.flat().filter((each) => each === letter).length ?? 0) - 208 / 3,
      ),
    ).toBeLessThan(1);
  expect(quiltCase?.survey.families?.C).toMatchObject({
    fragility: 'worn',
    fibre: 'cotton',
    self_destructing: false,
  });
  expect(asked.length).toBeLessThanOrEqual(60);
  expect(keys).toBeLessThanOrEqual(450);
});
