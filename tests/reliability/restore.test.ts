import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { run, runAt } from '../scenarios/run.ts';
import { firstCaseIn, freshStudio } from './studio.ts';

const at = freshStudio();
const name = firstCaseIn(at);
const path = () => at('cases', `${name()}.yaml`);
const versions = async (of: string): Promise<{ version: string }[]> =>
  JSON.parse((await run(at(), 'restore', of, '--json')).out);

/** Writes three hours into the log, one command each; gives what stood in the case before each of them and after. */
const work = async (of: string): Promise<string[]> => {
  const stood = [readFileSync(path(), 'utf8')];
  for (const hours of ['1.5h', '2h', '45min']) {
    const { code, err } = await run(at(), 'log', of, 'supports', hours);
    expect(code, err).toBe(0);
    stood.push(readFileSync(path(), 'utf8'));
  }
  return stood;
};

describe('restoring a case', () => {
  it('brings back every earlier version byte for byte, and keeps the present one first', async () => {
    const of = name();
    const stood = await work(of);
    const listed = await versions(of);
    expect(listed).toHaveLength(3);
    for (const [index, { version }] of listed.entries()) {
      const before = readFileSync(path(), 'utf8');
      const { code, out } = await run(at(), 'restore', of, version);
      expect(code).toBe(0);
      expect(readFileSync(path(), 'utf8')).toBe(stood[index]);
      const kept = /kept as ([\d-]+T[\d-]+)/.exec(out.replace(/\s+/g, ' '))?.[1] ?? '';
      expect(readFileSync(at('cases', '.history', `${of}.${kept}.yaml`), 'utf8')).toBe(before);
    }
  });

  it('names the version it kept by the name that version got, where two writes fall into one millisecond', async () => {
    const of = name();
    const stood = await work(of);
    const [{ version: first } = { version: '' }, { version: second } = { version: '' }] = await versions(of);
    const stopped = (): string => '2026-11-27T12-00-00-000';
    const restore = (which: string) => runAt(stopped, 'restore', of, which, '--studio', at(), '--json');
    const said = [await restore(first), await restore(second)].map(({ out }) => JSON.parse(out).kept);
    expect(said).toEqual([stopped(), `${stopped()}-2`]);
    const kept = said.map((stamp) => readFileSync(at('cases', '.history', `${of}.${stamp}.yaml`), 'utf8'));
    // What stood there before each of the two: the last of the log, then what the first one brought back.
    expect(kept).toEqual([stood[3], stood[0]]);
  });

  it('brings back a case that was deleted, emptied or overwritten with bytes that are no text', async () => {
    const of = name();
    const file = path();
    const stood = await work(of);
    const last = (await versions(of)).at(-1)?.version ?? '';
    const spoil: (() => void)[] = [
      () => rmSync(file),
      () => writeFileSync(file, ''),
      () => writeFileSync(file, Buffer.from([0xff, 0xfe, 0, 1, 0x80])),
    ];
    for (const harm of spoil) {
      harm();
      const before = (await versions(of)).length;
      expect(await run(at(), 'restore', of, last)).toMatchObject({ code: 0, err: '' });
      expect(readFileSync(file, 'utf8')).toBe(stood[2]);
      expect((await versions(of)).length - before).toBe(harm === spoil[0] ? 0 : 1);
    }
    const kept = (await versions(of)).at(-1)?.version;
    expect([...readFileSync(at('cases', '.history', `${of}.${kept}.yaml`))]).toEqual([
      0xff, 0xfe, 0, 1, 0x80,
    ]);
  });

  it('does not mix a case with its second surveys', async () => {
    const of = name();
    mkdirSync(at('cases', '.history'), { recursive: true });
    writeFileSync(at('cases', '.history', `${of}.ann.2026-01-01T00-00-00-000.yaml`), 'a: 1\n');
    writeFileSync(at('cases', '.history', `${of}.2026-01-02T00-00-00-000.yaml`), 'a: 1\n');
    expect((await versions(of)).map(({ version }) => version)).toEqual(['2026-01-02T00-00-00-000']);
  });

  it('lists versions kept at one moment in the order of their numbers', async () => {
    const of = name();
    mkdirSync(at('cases', '.history'), { recursive: true });
    const stamps = ['', '-2', '-10'].map((end) => `2026-01-02T00-00-00-000${end}`);
    for (const stamp of [...stamps].reverse())
      writeFileSync(at('cases', '.history', `${of}.${stamp}.yaml`), '');
    expect((await versions(of)).map(({ version }) => version)).toEqual(stamps);
  });

  it('names the nearest version where there is none of that name, and writes nothing', async () => {
    const of = name();
    const stood = await work(of);
    const first = (await versions(of))[0]?.version ?? '';
    const { code, err } = await run(at(), 'restore', of, `${first}9`);
    expect(code).toBe(2);
    expect(err).toContain(`did you mean "${first}"`);
    expect(readFileSync(path(), 'utf8')).toBe(stood[3]);
  });

  it('says so where nothing was kept yet, and refuses a version of a newer format', async () => {
    const of = name();
    expect((await run(at(), 'restore', of)).out).toContain('No former version');
    mkdirSync(at('cases', '.history'));
    const before = readFileSync(path(), 'utf8');
    writeFileSync(
      at('cases', '.history', `${of}.2027-01-01T00-00-00-000.yaml`),
      `mendwise: 2\ncase: ${of}\n`,
    );
    const { code, err } = await run(at(), 'restore', of, '2027-01-01T00-00-00-000');
    expect(code).toBe(2);
    expect(err).toContain('[newer-format]');
    expect(readFileSync(path(), 'utf8')).toBe(before);
    expect(await versions(of)).toHaveLength(1);
  });
});
