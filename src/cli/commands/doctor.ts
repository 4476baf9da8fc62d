import { mkdir, rename } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { counted } from '../../documents/phrases.ts';
import { bold, type PageStyle, paragraph } from '../../documents/terminal/layout.ts';
import { ProblemError } from '../../problems/problem.ts';
import { reasonOf } from '../../store/disk.ts';
import { expectations, unreadableCases } from '../../store/doctor/cases.ts';
import { type Examination, type Found, faultIn, type Patient } from '../../store/doctor/fault.ts';
import { history, records } from '../../store/doctor/history.ts';
import { drafts, leftBehind } from '../../store/doctor/left-behind.ts';
import { rules, settings } from '../../store/doctor/rules.ts';
import { HISTORY } from '../../store/save-text.ts';
import { openStudio, relativeName, rulesFolderOf } from '../../store/studio.ts';
import type { Terminal } from '../../store/terminal.ts';
import { type Action, asOf, studioOptions, type Typed } from '../command.ts';

type Told = Found & { readonly setAsideTo: string | null };

export const action: Action = async (typed, terminal) => {
  const patient = await patientOf(typed, terminal);
  const all = (await Promise.all(EXAMINATIONS.map((examine) => goingOn(examine, patient)))).flat();
  const found = all.filter((each, at) => all.findIndex((other) => isDeepStrictEqual(other, each)) === at);
  const stamp = terminal.stamp();
  const told: Told[] = [];
  for (const each of found) {
    const mend = typed.options.mend === true && each.setAside === true;
    told.push({ ...each, setAsideTo: mend ? await setAside(resolve(each.file), stamp) : null });
  }
  const left = told.filter(({ severity, setAsideTo }) => severity === 'fault' && setAsideTo === null);
  const style = { width: terminal.width, color: terminal.color };
  if (typed.options.json === true) terminal.out(JSON.stringify(told.map(asData), null, 2));
  else terminal.out([...told.map((each) => page(each, style)), summary(told, left.length)].join('\n\n'));
  return left.length > 0 ? 1 : 0;
};

/** What one examination stumbles over is a finding too: the others are told all the same. */
const goingOn = async (examine: Examination, patient: Patient): Promise<Found[]> => {
  try {
    return await examine(patient);
  } catch (error) {
    return [
      {
        kind: 'unexamined',
        severity: 'fault',
        file: relativeName(patient.folder),
        what: `a part of the studio could not be looked over: ${faultIn(error)}`,
        cure: 'Mend what is named here, and run "mendwise doctor" again: more may come to light.',
      },
    ];
  }
};

/** A studio whose rules do not read is what a doctor is for, so it is looked over as far as can be. */
async function patientOf(typed: Typed, terminal: Terminal): Promise<Patient> {
  const options = studioOptions(typed);
  const folder = resolve(options.studio ?? '.');
  const rulesFolder = rulesFolderOf(options, folder);
  const studio = await openStudio(options).catch(() => undefined);
  return { folder, rulesFolder, casesFolder: join(folder, 'cases'), studio, asOf: asOf(typed, terminal) };
}

/** Moves a file to where nothing reads it and nothing is lost. */
async function setAside(path: string, stamp: string): Promise<string> {
  const folder = join(dirname(path), HISTORY, 'set-aside', stamp);
  try {
    await mkdir(folder, { recursive: true });
    await rename(path, join(folder, basename(path)));
  } catch (error) {
    const what = `${relativeName(path)} cannot be set aside: ${reasonOf(error)}`;
    throw new ProblemError([{ code: 'cannot-write', severity: 'error', what }]);
  }
  return relativeName(join(folder, basename(path)));
}

const asData = ({ setAside: _, setAsideTo, ...rest }: Told) => ({ ...rest, set_aside_to: setAsideTo });

const page = ({ severity, file, what, cure, kind, setAsideTo }: Told, style: PageStyle): string =>
  [
    `${bold(`${severity}:`, style)} ${file}   [${kind}]`,
    paragraph(`${what}.`, style, '  '),
    paragraph(setAsideTo === null ? cure : `Set aside to ${setAsideTo}.`, style, '  Do: ').replace(
      /^ {2}Do: (?=Set aside to)/,
      '  Done: ',
    ),
  ].join('\n');

const summary = (told: readonly Told[], left: number): string => {
  const notes = told.filter(({ severity }) => severity === 'note').length;
  const mended = told.filter(({ setAsideTo }) => setAsideTo !== null).length;
  return [
    left === 0 ? 'Nothing is wrong' : `${counted(left, 'fault')} to mend by hand or with --mend`,
    ...(mended > 0 ? [`${mended} set aside`] : []),
    ...(notes > 0 ? [counted(notes, 'note')] : []),
  ].join('; ');
};

/** Everything that is looked at, in the order it is told. */
export const EXAMINATIONS: readonly Examination[] = [
  leftBehind,
  settings,
  rules,
  unreadableCases,
  history,
  records,
  drafts,
  expectations,
];
