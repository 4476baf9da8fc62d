import { cp, mkdir, readdir, rename, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { faultOf, reasonOf } from '../../casebook/disk.ts';
import { saveText } from '../../casebook/save-text.ts';
import { contextOf } from '../../decision/context.ts';
import { decide } from '../../decision/decide.ts';
import { differences } from '../../decision/expectation.ts';
import { defaultStudio } from '../../estimates/studio.ts';
import { type Problem, ProblemError } from '../../problems/problem.ts';
import type { Knowledge } from '../../rulebook/knowledge.ts';
import { type Action, textOption } from '../command.ts';
import { openCase } from '../open-case.ts';
import { STANDING_WORDS, TREATMENT_WORDS } from '../print/labels.ts';
import { type PageStyle, paragraph } from '../print/layout.ts';
import { SCHEMA_FOLDER, writeSchemas } from '../schemas.ts';
import { SAMPLE, SAMPLE_NAME } from '../start/sample.ts';
import { studioYaml } from '../start/settings.ts';
import { loadKnowledge, openStudio, shippedFolder } from '../studio.ts';

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
  const what = answer.treatment === null ? '' : `, ${TREATMENT_WORDS[answer.treatment]}`;
  const sentence = `The sample was decided and its check holds: ${STANDING_WORDS[answer.standing]}${what}.`;
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
