import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runHere } from '../scenarios/run.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-sheet-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const run = (...args: string[]) => runHere('sheet', ...args, '--quick');

describe('mendwise sheet', () => {
  it('writes what the answer asks for where nobody says what', async () => {
    const path = join(folder, 'no.html');
    const { code, out, err } = await run('cases/bunk-bed-scraps.yaml', '--out', path);
    expect([code, out]).toEqual([0, '']);
    expect(err).toContain('Written:');
    expect(readFileSync(path, 'utf8')).toContain('We have decided not to take on this repair.');
  });

  it('prints with --out -, in the format asked for', async () => {
    const { code, out } = await run('cases/bindweed-ninepatch.yaml', '--out', '-', '--format', 'markdown');
    expect(code).toBe(0);
    expect(out).toMatch(/^# How far to go/m);
  });

  it('takes the format from the file’s ending, and keeps the version it replaces', async () => {
    const path = join(folder, 'care.txt');
    writeFileSync(path, 'an earlier sheet\n');
    const { code } = await run('cases/bindweed-ninepatch.yaml', '--kind', 'care', '--out', path, '--replace');
    expect(code).toBe(0);
    expect(readFileSync(path, 'utf8')).toMatch(/\n=+\n/);
    const kept = readdirSync(join(folder, '.history'));
    expect(kept).toHaveLength(1);
    expect(readFileSync(join(folder, '.history', kept[0] ?? ''), 'utf8')).toBe('an earlier sheet\n');
  });

  it('embeds a photograph that exists, by what it is and not by its name', async () => {
    const png = Buffer.from(
      'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
      'base64',
    );
    writeFileSync(join(folder, 'front.png'), png);
    writeFileSync(join(folder, 'secret.png'), 'not a picture');
    const text = readFileSync('cases/bindweed-ninepatch.yaml', 'utf8').replace(
      /^photos:[\s\S]*?(?=^\w|(?![\s\S]))/m,
      '',
    );
    const at = join(folder, 'bindweed-ninepatch.yaml');
    writeFileSync(
      at,
      `${text}\nphotos:\n  - { file: front.png, of: whole front, when: before }\n  - { file: secret.png, of: back }\n`,
    );
    const { code, out } = await run(at, '--kind', 'survey', '--out', '-');
    expect(code).toBe(0);
    expect(out).toContain(`data:image/png;base64,${png.toString('base64')}`);
    expect(out).toContain('Back: not in the folder of the case (secret.png)');
  });

  it.each([
    [['--kind', 'decline'], 'does not fit this case', 'the answer is "go ahead"'],
    [['--kind', 'letter'], 'there is no letter to write', 'decision sheet'],
    [['--kind', 'estmate'], 'there is no kind "estmate"', 'estimate'],
    [['--format', 'pdf'], 'there is no format "pdf"', 'html, markdown or text'],
    [['--out', 'x.yaml'], 'is not named like a paper', '.html'],
    [['--out', '-', '--open'], '--open has nothing to open', 'name a file'],
  ])('refuses %j with a cure', async (args, what, cure) => {
    const { code, err } = await run('cases/bindweed-ninepatch.yaml', ...args);
    expect(code).toBe(2);
    const said = err.replace(/\s+/g, ' ');
    expect(said).toContain(what);
    expect(said).toContain(cure);
  });
});
