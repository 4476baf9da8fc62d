import { cp, mkdir, readdir, rename, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { contextOf } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { differences } from '../../decision/expectation.ts';
import { sayRecommendation } from '../../decision/words.ts';
import { type PageStyle, paragraph } from '../../documents/terminal/layout.ts';
import { defaultStudio } from '../../estimates/price.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import { openCase } from '../../store/case-store.ts';
import { faultOf, reasonOf } from '../../store/disk.ts';
import { saveText } from '../../store/save-text.ts';
import { SCHEMA_FOLDER, writeSchemas } from '../../store/schemas.ts';
import { loadKnowledge, openStudio, shippedFolder } from '../../store/studio.ts';
import { type Action, textOption } from '../command.ts';
import { studioYaml } from './start-settings.ts';

export const action: Action = async (typed, terminal) => {
  const given = typed.args[0] ?? '';
  const folder = resolve(given);
  const rules = textOption(typed, 'rules') ?? join(shippedFolder(), 'rules');
  // Rules that do not read are refused before anything is written.
  const knowledge = await loadKnowledge(resolve(rules));
  await emptyFolder(folder, given);
  await make(folder, given, { rules: resolve(rules), knowledge, demo: typed.options.demo === true });

  const studio = await openStudio({ studio: folder });
  const sample = await openCase(join(folder, 'cases', `${SAMPLE_NAME}.yaml`), studio);
  const { answer } = await decide(sample.case, contextOf(studio, terminal.today()));
  const wrong = differences(sample.case.expect ?? {}, answer);
  const style = { color: terminal.color, width: terminal.width };
  const demo = typed.options.demo === true;
  terminal.out(made(given, demo, style));
  if (wrong.length > 0) {
    const told = wrong.map(({ what }) => what).join('; ');
    terminal.err(paragraph(`The sample does not decide as it expects under these rules: ${told}.`, style));
    return 1;
  }
  const sentence = `The sample was decided and its check holds: ${sayRecommendation(answer)}.`;
  terminal.out([paragraph(sentence, style), '', next(given, demo)].join('\n'));
  return 0;
};

/** Links are followed: what is edited in the studio is its own, and nobody else's. */
const COPY = { recursive: true, dereference: true } as const;

/**
 * Makes everything in a folder inside, and moves it to its place when it is whole: a disk that fills up on the way
 * leaves no half rulebook that looks like one.
 */
async function make(
  folder: string,
  given: string,
  {
    rules,
    knowledge,
    demo,
  }: { readonly rules: string; readonly knowledge: Knowledge; readonly demo: boolean },
): Promise<void> {
  const making = join(folder, MAKING);
  try {
    await rm(making, { recursive: true, force: true });
    await mkdir(join(making, 'cases'), { recursive: true });
    await cp(rules, join(making, 'rules'), COPY);
    if (demo) await cp(join(shippedFolder(), 'cases', 'demo'), join(making, 'cases'), COPY);
    await writeSchemas(join(making, 'rules', SCHEMA_FOLDER), knowledge);
    await saveText(join(making, 'studio.yaml'), studioYaml(defaultStudio(knowledge.figures)));
    await saveText(join(making, 'cases', `${SAMPLE_NAME}.yaml`), SAMPLE);
    const there = await readdir(folder);
    // What an earlier run had moved before it was broken off stays as it is.
    for (const name of ['rules', 'cases', 'studio.yaml'])
      if (!there.includes(name)) await rename(join(making, name), join(folder, name));
    await rm(making, { recursive: true });
  } catch (error) {
    await rm(making, { recursive: true, force: true }).catch(() => undefined);
    if (error instanceof ProblemError) throw error;
    throw failed('cannot-write', `${given} cannot be written: ${reasonOf(error)}`);
  }
}

const made = (folder: string, demo: boolean, style: PageStyle): string =>
  [
    `Made ${folder}:`,
    paragraph('your settings, each explained', style, '  studio.yaml  '),
    paragraph('what decides, yours to edit', style, '  rules/       '),
    paragraph(
      demo
        ? `one sample, ${SAMPLE_NAME}, and an invented studio’s finished work`
        : `one sample, ${SAMPLE_NAME}`,
      style,
      '  cases/       ',
    ),
  ].join('\n');

/** Commands are never wrapped: people copy them. */
const next = (folder: string, demo: boolean): string =>
  [
    'Try next:',
    `  cd ${/^[\w./-]+$/.test(folder) ? folder : `"${folder}"`}`,
    `  mendwise decide ${SAMPLE_NAME}`,
    '  mendwise rules show --stage stop',
    '  mendwise enquiry',
    ...(demo ? ['  mendwise helpers', '  mendwise learned', '  mendwise cases --due'] : []),
  ].join('\n');

const failed = (code: Problem['code'], what: string, cure?: string): ProblemError =>
  new ProblemError([{ code, severity: 'error', what, ...(cure === undefined ? {} : { cure }) }]);

/** Stands in a folder as long as a studio is being made there; left behind, it says that the making was broken off. */
const MAKING = '.making';

/** Makes the folder, or refuses one that has something in it; what a broken-off run left is gone on with. */
async function emptyFolder(folder: string, given: string): Promise<void> {
  let there: string[];
  try {
    await mkdir(folder, { recursive: true });
    there = await readdir(folder);
  } catch (error) {
    if (faultOf(error) === 'EEXIST' || faultOf(error) === 'ENOTDIR')
      throw failed('already-there', `${given} is a file, not a folder`);
    throw failed('cannot-write', `${given} cannot be made: ${reasonOf(error)}`);
  }
  if (there.length === 0 || there.includes(MAKING)) return;
  const some = there.slice(0, 3).join(', ');
  throw failed(
    'already-there',
    `${given} has something in it already: ${some}${there.length > 3 ? ' …' : ''}`,
    'Name a folder that is new or empty.',
  );
}

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
