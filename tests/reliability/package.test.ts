import { execFileSync, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';

const ROOT = new URL('../..', import.meta.url).pathname;
let folder = '';
let installed = '';
let packed: { path: string; mode: number }[] = [];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-package-'));
  const source = join(folder, 'source');
  // Packed from a copy with the build of this test run, so that an old dist/ cannot pass for a new one.
  for (const name of ['package.json', 'README.md', 'rules', 'cases'])
    cpSync(join(ROOT, name), join(source, name), { recursive: true });
  cpSync(dirname(inject('built')), join(source, 'dist'), { recursive: true });
  const told = execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', folder], {
    cwd: source,
    encoding: 'utf8',
  });
  const [{ filename, files }] = JSON.parse(told);
  packed = files;
  installed = join(folder, 'elsewhere', 'mendwise');
  execFileSync('mkdir', ['-p', installed]);
  execFileSync('tar', ['xzf', join(folder, filename), '--strip-components=1', '-C', installed]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the installed program where there is neither the repo nor any node_modules. */
const runInstalled = (...args: string[]) => {
  const { bin } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(installed, bin.mendwise), ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: { PATH: process.env.PATH, HOME: folder },
  });
  return { code: status, out: stdout, err: stderr };
};

describe('the package', () => {
  it('holds the program, rules, cases and the first page, and nothing of the workshop', () => {
    const paths = packed.map(({ path }) => path);
    for (const wanted of [
      'dist/main.js',
      'dist/rules.json',
      'rules/findings.yaml',
      'rules/schema/case.json',
      'README.md',
    ])
      expect(paths).toContain(wanted);
    expect(paths.filter((path) => !/^(dist|rules|cases)\/|^(package\.json|README\.md)$/.test(path))).toEqual(
      [],
    );
    expect(paths.filter((path) => /\.(ts|test\.\w+|map|env)$|\/\./.test(path))).toEqual([]);
    expect(statSync(join(installed, 'dist', 'main.js')).mode & 0o111).toBeGreaterThan(0);
  });

  it('runs no script when it is installed', () => {
    const { scripts } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
    for (const name of [
      'preinstall',
      'install',
      'postinstall',
      'prepare',
      'prepublish',
      'preprepare',
      'postprepare',
    ])
      expect(scripts).not.toHaveProperty(name);
  });

  it('runs outside the repo with no package beside it: a studio, its decision, a document', () => {
    expect(existsSync(join(installed, 'node_modules'))).toBe(false);
    expect(runInstalled('--help').code).toBe(0);
    expect(runInstalled('start', 'studio')).toMatchObject({ code: 0, err: '' });
    const studio = join(folder, 'studio');
    const [name = ''] = readdirSync(join(studio, 'cases'));
    const { code, out, err } = runInstalled(
      'decide',
      name.replace('.yaml', ''),
      '--studio',
      studio,
      '--quick',
      '--json',
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(JSON.parse(out).schema).toBe('mendwise/decision@1');
    const page = join(folder, 'sheet.html');
    expect(
      runInstalled('sheet', name.replace('.yaml', ''), '--studio', studio, '--quick', '--out', page).code,
    ).toBe(0);
    expect(readFileSync(page, 'utf8')).toMatch(/^<!doctype html>/i);
  });

  it('runs without what the build kept, or with kept files of no use: slower, with the same answer', () => {
    const decide = () =>
      runInstalled(
        'decide',
        join(installed, 'cases', 'trunk-find.yaml'),
        '--quick',
        '--json',
        '--as-of',
        '2026-11-27',
      );
    const before = decide();
    expect(before.code).toBe(0);
    const dist = (name: string) => join(installed, 'dist', name);
    const text = readFileSync(dist('rules.json'));
    for (const spoilt of [text.subarray(0, 5000), '', 'null', '{}']) {
      writeFileSync(dist('rules.json'), spoilt);
      expect(decide()).toEqual(before);
    }
    // One byte altered is noticed: the digest covers all of it.
    const altered = Buffer.from(text);
    altered[altered.length - 200] = (altered[altered.length - 200] ?? 0) ^ 1;
    writeFileSync(dist('rules.json'), altered);
    expect(decide()).toEqual(before);
    rmSync(dist('rules.json'));
    expect(decide()).toEqual(before);
    // Rules were read once and kept in the user's own cache; a spoilt cache is passed over too.
    const cache = join(folder, '.cache', 'mendwise');
    const kept = readdirSync(cache);
    expect(kept.filter((name) => /^rules-.*\.json$/.test(name)).length).toBeGreaterThan(0);
    for (const name of kept) writeFileSync(join(cache, name), '{}');
    expect(decide()).toEqual(before);
  });

  it('has a bill of materials that names every run-time dependency, at the version of the lockfile', () => {
    // Not with "--omit dev": npm 11 then leaves out what a tool of the workshop uses as well, such as zod.
    const { status, stdout } = spawnSync(
      'npm',
      ['sbom', '--sbom-format', 'cyclonedx', '--package-lock-only'],
      {
        cwd: ROOT,
        encoding: 'utf8',
      },
    );
    expect(status).toBe(0);
    const { components } = JSON.parse(stdout) as { components: { purl: string }[] };
    // Package URLs write the @ of a scope as %40 (package-url specification, npm).
    const listed = components.map(({ purl }) => purl.replace(/^pkg:npm\//, '').replace('%40', '@'));
    const { dependencies } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
      dependencies: Record<string, string>;
    };
    for (const [name, version] of Object.entries(dependencies)) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
      expect(listed).toContain(`${name}@${version}`);
    }
  });
});
