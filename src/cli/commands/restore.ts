import { readFile } from 'node:fs/promises';
import { readCase } from '../../casebook/read-case.ts';
import { paragraph } from '../../documents/terminal/layout.ts';
import { findingReader } from '../../findings/read-answer.ts';
import { ProblemError } from '../../problems/problem.ts';
import { suggest } from '../../source/suggest.ts';
import { DISK, faultOf, reasonOf } from '../../store/disk.ts';
import { loadText } from '../../store/load-text.ts';
import { saveText, type Version, versionsOf } from '../../store/save-text.ts';
import { casePath, openStudio, relativeName } from '../../store/studio.ts';
import { tellProblems } from '../../store/terminal.ts';
import { type Action, studioOptions } from '../command.ts';

export const action: Action = async (typed, terminal) => {
  const [name = '', wanted] = typed.args;
  const studio = await openStudio(studioOptions(typed));
  const path = casePath(name, studio);
  const versions = await versionsOf(path, DISK).catch((error: unknown) => {
    const what = `the former versions of ${relativeName(path)} cannot be read: ${reasonOf(error)}`;
    throw new ProblemError([{ code: 'cannot-read', severity: 'error', what }]);
  });
  const style = { width: terminal.width, color: terminal.color };
  if (wanted === undefined) {
    terminal.out(typed.options.json === true ? asData(versions) : listed(versions, name, style.width));
    return 0;
  }
  const version = chosen(versions, wanted, path, name);
  const text = await loadText(version.path);
  const { problems } = readCase(relativeName(path), text, findingReader(studio.knowledge.vocabulary));
  if (problems.some(({ code }) => code === 'newer-format')) throw new ProblemError(problems);
  const present = await presentText(path);
  const stamp = terminal.stamp();
  // Another write of the same millisecond may have taken that name: what is told is the name it got.
  const kept = await saveText(path, text, present === undefined ? {} : { expected: present, stamp });
  tellProblems(problems, terminal);
  const said = [
    `${relativeName(path)} is again what it was before ${version.stamp}.`,
    ...(kept === undefined ? [] : [`What stood there is kept as ${kept}.`]),
  ].join(' ');
  if (typed.options.json === true)
    terminal.out(JSON.stringify({ restored: version.stamp, kept: kept ?? null }, null, 2));
  else terminal.out(paragraph(said, style));
  return 0;
};

/** What stands there now, as the disk decodes it: even what is no text is kept, byte for byte, under its stamp. */
async function presentText(path: string): Promise<string | undefined> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    if (faultOf(error) === 'ENOENT') return undefined;
    const what = `${relativeName(path)} cannot be replaced: ${reasonOf(error)}`;
    throw new ProblemError([{ code: 'cannot-write', severity: 'error', what }]);
  }
}

function chosen(versions: readonly Version[], wanted: string, path: string, name: string): Version {
  const found = versions.find(({ stamp }) => stamp === wanted);
  if (found !== undefined) return found;
  const near = suggest(
    wanted,
    versions.map(({ stamp }) => stamp),
  );
  throw new ProblemError([
    {
      code: 'no-such-file',
      severity: 'error',
      what: `${relativeName(path)} has no former version ${wanted}`,
      cure: `"mendwise restore ${name}" lists those there are.`,
      ...(near === undefined ? {} : { didYouMean: near }),
    },
  ]);
}

const asData = (versions: readonly Version[]): string =>
  JSON.stringify(
    versions.map(({ stamp, path }) => ({ version: stamp, file: relativeName(path) })),
    null,
    2,
  );

const listed = (versions: readonly Version[], name: string, width: number): string =>
  versions.length === 0
    ? paragraph(`No former version of ${name} is kept: it was not changed by this program yet.`, {
        width,
        color: false,
      })
    : [
        'Former versions, the oldest first, each named by when it was replaced:',
        ...versions.map(({ stamp }) => `  ${stamp}`),
        `Bring one back with: mendwise restore ${name} ${versions.at(-1)?.stamp}`,
      ].join('\n');
