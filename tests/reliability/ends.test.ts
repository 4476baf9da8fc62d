import { spawnSync } from 'node:child_process';
import { describe, expect, inject, it } from 'vitest';
import { sample } from '../tiers.ts';
import { firstCaseIn, freshStudio } from './studio.ts';

const at = freshStudio();
const name = firstCaseIn(at);
const M = () => `'${process.execPath}' '${inject('built')}'`;
const shell = (script: string, env: NodeJS.ProcessEnv = {}) => {
  const { NO_COLOR: _1, TERM: _2, FORCE_COLOR: _3, ...rest } = process.env;
  const { status, stdout, stderr } = spawnSync('bash', ['-c', script], {
    cwd: at(),
    encoding: 'utf8',
    env: { ...rest, ...env },
    timeout: 30_000,
  });
  return { code: status, out: stdout, err: stderr };
};
/** Runs a command in a pseudo-terminal of a given width (script, of util-linux). */
const inTerminal = (typed: string, width: number, env: NodeJS.ProcessEnv = {}) =>
  shell(
    `script -qec "stty cols ${width} rows 24; ${M().replaceAll("'", '')} ${typed}" /dev/null < /dev/null`,
    env,
  );

const ESCAPE = '\u001B[';

describe('the ends of a command', () => {
  it.each(
    sample(
      ['decide CASE --quick --json', 'decide CASE --quick', 'rules show', 'explain', '--help', 'cases'],
      2,
    ),
  )('is quiet where the reader goes away: %s | head', (typed) => {
    const { code, err } = shell(
      `set -o pipefail; ${M()} ${typed.replace('CASE', name())} | head -c 10 > /dev/null`,
    );
    expect(err).toBe('');
    expect(code).toBe(0);
  });

  it.each(sample(['decide CASE --quick --json', 'rules show', '--help', 'explain'], 2))(
    'exits 4 where what it prints to is full, without a stack trace: %s',
    (typed) => {
      const { code, err } = shell(`${M()} ${typed.replace('CASE', name())} > /dev/full`);
      expect(code).toBe(4);
      expect(err).not.toMatch(/^\s+at /m);
    },
  );

  it('prints the whole of a long answer into a pipe', () => {
    const { out } = shell(`${M()} rules show --json | cat`);
    // More than a pipe holds at once on Linux (pipe(7)).
    expect(out.length).toBeGreaterThan(65_536);
    expect(() => JSON.parse(out)).not.toThrow();
  });

  it.each(['< /dev/null', '<&-', '< <(yes)'])('answers without asking where stdin is %s', (stdin) => {
    const { code, out, err } = shell(`${M()} decide ${name()} --quick --json ${stdin}`);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(JSON.parse(out).schema).toBe('mendwise/decision@1');
  });

  it.each(['< /dev/null', '<&-', '< <(yes)'])('asks nothing where stdin is %s, and exits 3', (stdin) => {
    const { code, err } = shell(`${M()} enquiry star-quilt ${stdin}`);
    expect(code).toBe(3);
    expect(err).toContain('[needs-terminal]');
  });

  it('goes on where stdout or stderr is closed', () => {
    expect(shell(`${M()} decide ${name()} --quick 2>&-`)).toMatchObject({ code: 0 });
    expect(shell(`${M()} decide nobody 2>&-`).code).toBe(2);
    expect([0, 4]).toContain(shell(`${M()} decide ${name()} --quick >&-`).code);
  });

  it('uses colour in a terminal only, and not with NO_COLOR or TERM=dumb', () => {
    const typed = `decide ${name()} --quick`;
    expect(inTerminal(typed, 80, { TERM: 'xterm' }).out).toContain(ESCAPE);
    expect(inTerminal(typed, 80, { TERM: 'xterm', NO_COLOR: '1' }).out).not.toContain(ESCAPE);
    expect(inTerminal(typed, 80, { TERM: 'dumb' }).out).not.toContain(ESCAPE);
    expect(shell(`${M()} ${typed} | cat`, { TERM: 'xterm' }).out).not.toContain(ESCAPE);
  });

  it('is readable 20 columns wide: nothing is lost, words are not cut', () => {
    const words = (text: string) => new Set(text.split(/[^\p{L}\p{N}]+/u).filter((word) => word !== ''));
    const typed = `decide ${name()} --quick`;
    const narrow = inTerminal(typed, 20, { TERM: 'dumb' });
    const wide = inTerminal(typed, 100, { TERM: 'dumb' });
    expect(narrow.code).toBe(0);
    expect(words(narrow.out)).toEqual(words(wide.out));
  });
});
