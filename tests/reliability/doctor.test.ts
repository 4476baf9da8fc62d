import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { describe, expect, it } from 'vitest';
import { run } from '../scenarios/run.ts';
import { DEAD, freshStudio, HOST } from './studio.ts';

const at = freshStudio();
const cases = (...parts: string[]) => at('cases', ...parts);
const sampleName = () => readdirSync(cases()).find((name) => name.endsWith('.yaml')) ?? '';
const sample = () => readFileSync(cases(sampleName()), 'utf8');

interface Told {
  readonly kind: string;
  readonly severity: string;
  readonly file: string;
  readonly what: string;
  readonly cure: string;
  readonly set_aside_to: string | null;
}
const examine = async (...options: string[]): Promise<{ code: number | null; told: Told[] }> => {
  const { code, out, err } = await run(at(), 'doctor', '--json', ...options);
  expect(err).toBe('');
  return { code, told: JSON.parse(out) };
};
const edit = (path: string, from: string | RegExp, to: string) => {
  const text = readFileSync(path, 'utf8');
  expect(text).toMatch(from);
  writeFileSync(path, text.replace(from, to));
};

/** Each plants one fault and says how it must be told: kind, file and a part of what and of the cure. */
const FAULTS: readonly (readonly [
  name: string,
  plant: () => void,
  kind: string,
  file: () => string | RegExp,
  what: RegExp,
  cure: RegExp,
])[] = [
  [
    'a temp of a killed program',
    () => writeFileSync(cases(`.a.yaml.3.${DEAD}.tmp`), 'half'),
    'orphan-temp',
    () => `cases/.a.yaml.3.${DEAD}.tmp`,
    /half-written copy of a\.yaml/,
    /--mend/,
  ],
  [
    'a temp among the rules',
    () => writeFileSync(at('rules', 'stages', `.stop.yaml.1.${DEAD}.tmp`), ''),
    'orphan-temp',
    () => /^rules\/stages\//,
    /half-written copy of stop\.yaml/,
    /--mend/,
  ],
  [
    'a lock of a killed program',
    () => writeFileSync(cases('.a.yaml.lock'), DEAD),
    'stale-lock',
    () => 'cases/.a.yaml.lock',
    /no longer runs/,
    /--mend/,
  ],
  [
    'a lock whose number another process has by now',
    () => {
      writeFileSync(cases('.a.yaml.lock'), `${HOST}.${process.pid}`);
      const old = Date.now() / 1000 - 3600;
      utimesSync(cases('.a.yaml.lock'), old, old);
    },
    'stale-lock',
    () => 'cases/.a.yaml.lock',
    /no longer runs/,
    /--mend/,
  ],
  [
    'settings that do not read',
    () => writeFileSync(at('studio.yaml'), 'currency: [\n'),
    'unreadable-settings',
    () => 'studio.yaml',
    /line \d+/,
    /Correct the line/,
  ],
  [
    'a missing file of rules',
    () => rmSync(at('rules', 'stages', 'refer.yaml')),
    'missing-rules',
    () => 'rules/stages/refer.yaml',
    /missing/,
    /copy the shipped one/,
  ],
  [
    'a file of rules nobody reads',
    () => writeFileSync(at('rules', 'stages', 'stopp.yaml'), '[]\n'),
    'extra-rules',
    () => 'rules/stages/stopp.yaml',
    /was stages\/stop\.yaml meant/,
    /Move its rules/,
  ],
  [
    'rules that do not read',
    () => edit(at('rules', 'stages', 'stop.yaml'), /because:/, 'becuase:'),
    'unreadable-rules',
    () => 'rules/stages/stop.yaml',
    /line \d+: because is missing/,
    /rules check/,
  ],
  [
    'words of papers that do not read',
    () => edit(at('rules', 'texts.yaml'), /\{deposit\} reserves/, '{deposti} reserves'),
    'unreadable-rules',
    () => 'rules/texts.yaml',
    /line \d+: "\{deposti\}" names nothing/,
    /mendwise sheet/,
  ],
  [
    'a case that does not read',
    () => writeFileSync(cases('torn.yaml'), sample().slice(0, 60)),
    'unreadable-case',
    () => 'cases/torn.yaml',
    /./,
    /mendwise decide torn/,
  ],
  [
    'an empty case',
    () => writeFileSync(cases('empty.yaml'), ''),
    'unreadable-case',
    () => 'cases/empty.yaml',
    /empty/,
    /decide empty/,
  ],
  [
    'a case of a newer format',
    () => writeFileSync(cases('new.yaml'), 'mendwise: 2\ncase: new\n'),
    'unreadable-case',
    () => 'cases/new.yaml',
    /format 2/,
    /decide new/,
  ],
  [
    'a case that is a link in a circle',
    () => symlinkSync('loop.yaml', cases('loop.yaml')),
    'unreadable-case',
    () => 'cases/loop.yaml',
    /round in a circle/,
    /./,
  ],
  [
    'a case under another name',
    () => renameSync(cases(sampleName()), cases('renamed.yaml')),
    'case-name',
    () => 'cases/renamed.yaml',
    /but its file "renamed"/,
    /Rename the file/,
  ],
  [
    'a case in two files',
    () => writeFileSync(cases(sampleName().replace(/yaml$/, 'yml')), sample()),
    'case-twice',
    () => /\.ya?ml$/,
    /two files/,
    /keep one/,
  ],
  [
    'a former version cut short',
    () => {
      mkdirSync(cases('.history'));
      writeFileSync(cases('.history', sampleName().replace(/yaml$/, '2026-01-01T00-00-00-000.yaml')), 'a: [');
    },
    'broken-history',
    () => /\.history\//,
    /cannot be brought back/,
    /not affected/,
  ],
  [
    'a file where the history belongs',
    () => writeFileSync(cases('.history'), ''),
    'broken-history',
    () => 'cases/.history',
    /not a folder|cannot be kept/,
    /Move what lies there/,
  ],
  [
    'a record that was altered',
    () => {
      mkdirSync(cases('.records'));
      writeFileSync(cases('.records', 'case-0123456789abcdef.yaml'), 'a: 1\n');
    },
    'altered-record',
    () => /case-0123456789abcdef/,
    /altered/,
    /backup/,
  ],
  [
    'a draft that does not read',
    () => writeFileSync(cases('x.draft.yaml'), 'a: [\n'),
    'unreadable-draft',
    () => 'cases/x.draft.yaml',
    /do not read/,
    /begin again/,
  ],
  [
    'an answer that changed',
    () => edit(cases(sampleName()), /standing: \w+/, 'standing: decline'),
    'expectation',
    () => /^cases\//,
    /standing is .* not decline/,
    /rules show/,
  ],
];

describe('a studio looked over', () => {
  it('has nothing wrong when it is new', async () => {
    expect(await run(at(), 'doctor')).toEqual({ code: 0, out: 'Nothing is wrong\n', err: '' });
  });

  it.each(FAULTS)('tells of %s', async (_, plant, kind, file, what, cure) => {
    plant();
    const { code, told } = await examine();
    expect(code).toBe(1);
    const found = told.find((each) => each.kind === kind);
    expect(found, JSON.stringify(told)).toBeDefined();
    expect(found?.severity).toBe('fault');
    expect(found?.file).toMatch(file());
    expect(found?.what).toMatch(what);
    expect(found?.cure).toMatch(cure);
    // Nothing is touched unless that is asked for.
    expect(await examine()).toEqual({ code, told });
  });

  it('notes an interview that is not finished, and a case that went missing, without calling either a fault', async () => {
    writeFileSync(cases('x.draft.yaml'), 'case: x\n');
    mkdirSync(cases('.history'));
    writeFileSync(cases('.history', 'gone.2026-01-01T00-00-00-000.yaml'), 'mendwise: 1\n');
    const { code, told } = await examine();
    expect(code).toBe(0);
    expect(told.map(({ kind, severity }) => [kind, severity])).toEqual([
      ['lost-case', 'note'],
      ['draft', 'note'],
    ]);
  });

  it('sets aside what killed programs left, loses none of it, and leaves all else alone', async () => {
    const lock = `.${sampleName()}.lock`;
    writeFileSync(cases(`.a.yaml.3.${DEAD}.tmp`), 'half');
    writeFileSync(cases(lock), DEAD);
    writeFileSync(cases('torn.yaml'), 'a: [');
    const { code, told } = await examine('--mend');
    expect(code).toBe(1);
    const moved = told.filter(({ set_aside_to: to }) => to !== null);
    expect(moved.map(({ kind }) => kind)).toEqual(['orphan-temp', 'stale-lock']);
    expect(moved.map(({ set_aside_to: to }) => readFileSync(at(to ?? ''), 'utf8'))).toEqual(['half', DEAD]);
    expect(existsSync(cases(lock))).toBe(false);
    expect(readFileSync(cases('torn.yaml'), 'utf8')).toBe('a: [');
    rmSync(cases('torn.yaml'));
    expect(await run(at(), 'doctor', '--mend')).toMatchObject({ code: 0, out: 'Nothing is wrong\n' });
  });

  it('leaves a lock alone that a living program holds, or another machine', async () => {
    writeFileSync(cases('.a.yaml.lock'), `${HOST}.${process.pid}`);
    writeFileSync(cases('.b.yaml.lock'), 'elsewhere.77');
    const { code, told } = await examine('--mend');
    expect(code).toBe(0);
    expect(told.map(({ kind }) => kind)).toEqual(['lock', 'lock']);
    expect(readdirSync(cases())).toEqual(expect.arrayContaining(['.a.yaml.lock', '.b.yaml.lock']));
  });
});
