import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { afterEach, describe, expect, inject, it, vi } from 'vitest';
import { today } from '../../src/store/terminal.ts';
import { run } from '../scenarios/run.ts';
import { firstCaseIn, freshStudio } from './studio.ts';

const at = freshStudio();
const name = firstCaseIn(at);

/** Runs a command at a moment of the test's choosing, by a clock that is put in before it starts. */
const runAt = (moment: string, zone: string, ...typed: string[]) => {
  const clock = at('clock.cjs');
  writeFileSync(
    clock,
    `const Real = Date; const now = Real.parse('${moment}');
     globalThis.Date = class extends Real { constructor(...given) { given.length === 0 ? super(now) : super(...given); } static now() { return now; } };`,
  );
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--require', clock, inject('built'), ...typed],
    {
      cwd: at(),
      encoding: 'utf8',
      env: { ...process.env, TZ: zone, NO_COLOR: '1' },
    },
  );
  return { code: status, out: stdout, err: stderr };
};

/** Does something in a time zone. */
const inZone = async <T>(zone: string, work: () => T | Promise<T>): Promise<T> => {
  const { TZ: before } = process.env;
  process.env.TZ = zone;
  try {
    return await work();
  } finally {
    if (before === undefined) delete process.env.TZ;
    else process.env.TZ = before;
  }
};

describe('the clock', () => {
  afterEach(() => vi.useRealTimers());

  it.each([
    // The same moment is another day in another place (IANA time zones).
    ['2026-11-25T23:30:00Z', 'UTC', '2026-11-25'],
    ['2026-11-25T23:30:00Z', 'Pacific/Auckland', '2026-11-26'],
    ['2026-11-26T03:30:00Z', 'America/Los_Angeles', '2026-11-25'],
    ['2028-02-29T12:00:00Z', 'UTC', '2028-02-29'],
    ['2028-02-29T23:59:59Z', 'Asia/Kolkata', '2028-03-01'],
    // Clocks go forward in New York at 07:00 UTC on 8 March 2026.
    ['2026-03-08T07:00:00Z', 'America/New_York', '2026-03-08'],
    ['2026-12-31T23:59:59Z', 'Pacific/Kiritimati', '2027-01-01'],
  ])('%s in %s is %s', async (moment, zone, day) => {
    vi.useFakeTimers({ now: new Date(moment), toFake: ['Date'] });
    expect(await inZone(zone, today)).toBe(day);
  });

  it('of the machine tells a command its day', () => {
    const { out } = runAt(
      '2026-12-31T23:59:59Z',
      'Pacific/Kiritimati',
      'decide',
      name(),
      '--quick',
      '--json',
    );
    expect(JSON.parse(out).as_of).toBe('2027-01-01');
  });

  it('a day that is given means the same everywhere, and the answer is the same to the byte', async () => {
    const answers = new Set<string>();
    for (const zone of ['UTC', 'Pacific/Auckland', 'America/Los_Angeles']) {
      vi.useFakeTimers({ now: new Date('2026-11-25T23:30:00Z'), toFake: ['Date'] });
      const typed = ['decide', name(), '--quick', '--json', '--as-of', '2026-11-27'];
      answers.add((await inZone(zone, () => run(at(), ...typed))).out);
    }
    expect(answers.size).toBe(1);
    expect([...answers].join()).toContain('"as_of": "2026-11-27"');
  });

  it.each(['2026-02-29', '2026-13-01', '2026-00-10', '2026-11-31', '26-11-01', 'today'])(
    'refuses %s as a day',
    async (day) => {
      expect(await run(at(), 'decide', name(), '--as-of', day)).toMatchObject({
        code: 2,
        err: expect.stringContaining('[bad-date]'),
      });
    },
  );

  it('takes 29 February of a leap year', async () => {
    expect((await run(at(), 'decide', name(), '--quick', '--as-of', '2028-02-29')).code).toBe(0);
  });

  it('that was set back loses nothing: every version is kept under a name of its own', () => {
    const file = at('cases', `${name()}.yaml`);
    const stood = [readFileSync(file, 'utf8')];
    for (const moment of ['2026-11-25T10:00:00Z', '2026-11-20T10:00:00Z', '2026-11-20T10:00:00Z']) {
      const { code, err } = runAt(moment, 'UTC', 'log', name(), 'supports', '2h', '--on', '2026-11-01');
      expect(code, err).toBe(0);
      stood.push(readFileSync(file, 'utf8'));
    }
    const kept = readdirSync(at('cases', '.history'));
    expect(kept).toHaveLength(3);
    const texts = kept.map((each) => readFileSync(at('cases', '.history', each), 'utf8'));
    expect(new Set(texts)).toEqual(new Set(stood.slice(0, 3)));
  });
});
