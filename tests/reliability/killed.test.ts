import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { saveDraft, saveText } from '../../src/store/save-text.ts';
import { FULL } from '../tiers.ts';
import { seeded } from './seeded.ts';

const SIGNALS = ['SIGKILL', 'SIGTERM', 'SIGINT'] as const;
/** 500 kills in all where there is time for it: 250 of writers of cases, 250 of writers of drafts. */
const KILLS = FULL ? 250 : 15;
const ROOT = new URL('../..', import.meta.url).pathname;

let folder = '';
let writer = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-killed-'));
  writer = join(folder, 'writer.mjs');
  const banner =
    'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);';
  execFileSync(
    'npx',
    [
      'esbuild',
      'tests/reliability/writer.ts',
      '--bundle',
      '--platform=node',
      '--format=esm',
      '--log-level=error',
      `--outfile=${writer}`,
      `--banner:js=${banner}`,
    ],
    { cwd: ROOT },
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Lets a writer run, kills it `wait` milliseconds after it confirmed its first text; gives the last number confirmed. */
const killed = (
  path: string,
  way: string,
  first: number,
  wait: number,
  signal: NodeJS.Signals,
): Promise<number> =>
  new Promise((done, failed) => {
    const child = spawn(process.execPath, [writer, path, way, String(first)], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '';
    let err = '';
    child.stdout.on('data', (piece: Buffer) => {
      if (out === '') setTimeout(() => child.kill(signal), wait);
      out += piece.toString();
    });
    child.stderr.on('data', (piece: Buffer) => {
      err += piece.toString();
    });
    child.on('close', () => {
      if (err !== '') failed(new Error(err));
      // A number without its line break was cut off with the process, and was not confirmed.
      else done(Number(out.slice(0, out.lastIndexOf('\n')).split('\n').at(-1)));
    });
  });

/** The number a text says it has; throws where the text is not whole. */
const numberOf = (path: string): number => {
  const text = readFileSync(path, 'utf8');
  const [head = '', ...lines] = text.split('\n');
  const [number = '', length = ''] = head.split(' ');
  const body = text.slice(head.length + 1);
  expect(body.length, path).toBe(Number(length));
  expect(new Set(lines.slice(0, -1)), path).toEqual(new Set([`answer: ${number}`]));
  return Number(number);
};

describe.each([
  ['a case', 'save'],
  ['the answers of an interview', 'draft'],
])('a program killed while it writes %s', (_, way) => {
  it(`tears nothing and loses nothing that was confirmed, in ${KILLS} kills`, async () => {
    const random = seeded(way === 'save' ? 7 : 11);
    const cases = mkdtempSync(join(folder, 'cases-'));
    const path = join(cases, 'quilt.yaml');
    writeFileSync(path, '0 0\n');
    let next = 1;
    let between = 0;
    for (let kill = 0; kill < KILLS; kill += 1) {
      const signal = SIGNALS[kill % SIGNALS.length] ?? 'SIGKILL';
      const last = await killed(path, way, next, random() * 25, signal);
      const now = numberOf(path);
      // The text confirmed last, or the one after it, which was whole but not yet confirmed.
      expect([last, last + 1], `kill ${kill} by ${signal}`).toContain(now);
      if (readdirSync(cases).some((name) => /\.(tmp|lock)$/.test(name))) between += 1;
      next = now + 1;
    }
    // The kills did fall into the middle of writing, or nothing was tried.
    expect(between).toBeGreaterThan(KILLS / 10);
    for (const name of way === 'save' ? readdirSync(join(cases, '.history')) : []) {
      if (!name.includes('000001')) numberOf(join(cases, '.history', name));
    }
    const expected = readFileSync(path, 'utf8');
    if (way === 'save') await saveText(path, 'the next start', { expected });
    else await saveDraft(path, 'the next start', expected);
    expect(readdirSync(cases).filter((name) => name !== '.history')).toEqual(['quilt.yaml']);
    expect(readFileSync(path, 'utf8')).toBe('the next start');
  });
});
