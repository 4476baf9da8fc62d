import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { flat, runHere } from '../scenarios/run.ts';
import { CLEAN, NOTED } from './quilt-with.ts';

// What every command says of a quilt with a hazard in it, or one of which nobody has asked: the same as every paper.

let folder = '';
const file = (name: string): string => join(folder, 'cases', `${name}.yaml`);
const run = async (...words: string[]) => {
  const { code, out, err } = await runHere(...words, '--studio', folder);
  return { code, out: flat(out), err: flat(err) };
};

/** A quilt of whose squares there is a map, with these findings beside a clean bill, or with none at all. */
const quilt = (name: string, findings: Readonly<Record<string, unknown>> | undefined): void => {
  const said = findings === undefined ? {} : { ...CLEAN, ...findings };
  writeFileSync(
    file(name),
    `mendwise: 1
case: ${name}
client: { intended_use: guest_bed, owners_agree: yes }
quilt:
  size: { width: 32 in, height: 32 in }
  layout: { kind: edge to edge, rows: 4, columns: 4, finished: 8 in x 8 in }
survey:
  seen: in hand
  on: 2026-03-03
  families: { A: { fibre: wool, fragility: sound, share: 100 % } }
  units: |
    . . . .
    . h . .
    . . . .
    . . . .
  findings: ${JSON.stringify(said)}
`,
  );
};
const HAZARDS = Object.entries(NOTED);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-commands-'));
  cpSync(new URL('../../rules', import.meta.url), join(folder, 'rules'), { recursive: true });
});
beforeEach(() => {
  rmSync(join(folder, 'cases'), { recursive: true, force: true });
  mkdirSync(join(folder, 'cases'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a first message that tells of a hazard', () => {
  const TOLD = ['--set', 'quilt.size.width=72 in', '--set', 'quilt.size.height=72 in', '--yes'];
  const enquiry = (found: object, ...more: string[]) => {
    const settings = Object.entries(found).flatMap(([id, value]) => ['--set', `${id}=${value}`]);
    return run('enquiry', 'told', ...settings, ...more, ...TOLD);
  };

  it.each(HAZARDS.filter(([name]) => name !== 'traces on wool'))(
    '%s: what to do with the closed bag, who settles it, no pictures, no invitation',
    async (_, found) => {
      const { code, out } = await enquiry(found, '--set', 'client.damage=[holes]');
      expect(code).toBe(0);
      expect(out).toMatch(/A hazard comes first.*Settled by:.*Ask:/);
      expect(out).not.toMatch(/pictures|when it is here|mendwise survey/i);
    },
  );

  it('asks for pictures only once the questions on safety are answered', async () => {
    const { out } = await enquiry({ damp: 'no' });
    expect(out).toMatch(
      /ask by telephone about.*Once they are answered and nothing speaks against opening it/,
    );
    expect(out).toMatch(/When it is here/);
  });
});

describe('work on a quilt with a hazard in it', () => {
  it.each(HAZARDS)('%s: nobody is sent to grade it again', async (_, found) => {
    quilt('stopped', found);
    const { code, out, err } = await run('regrade', 'stopped');
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/cannot be graded again: a hazard has to be dealt with first.*\[stop-stands\]/);
  });

  it('nor one of which nobody has asked, and a clean one is graded', async () => {
    quilt('unasked', undefined);
    quilt('clean', {});
    expect((await run('regrade', 'unasked')).err).toMatch(/\[safety-unanswered\]/);
    expect((await run('regrade', 'clean')).out).toMatch(/Grade again, blind/);
  });

  it.each([
    ['hours', ['log', 'stopped', 'closing seams from the front', '2h']],
    [
      'the end of the work',
      ['followup', 'stopped', '--completed', '2026-11-10', '--treatment', 'reassemble'],
    ],
    ['a follow-up', ['followup', 'stopped', '--completed', '2026-11-10', '--seen', 'told', '--due', 'no']],
  ])('%s: written down, because it is a fact, and what to do now is told', async (_, words) => {
    quilt('stopped', { rodent_waste: 'yes' });
    const { code, err } = await run(...words);
    expect([code, err]).toEqual([
      0,
      expect.stringMatching(/A hazard comes first.*closed bag.*health department/),
    ]);
    quilt('stopped', {});
    expect((await run(...words)).err).not.toMatch(/hazard/);
  });

  it('a further look that finds one prints its stop and what to do at once', async () => {
    quilt('opened', {});
    const clean = await run('survey', 'opened', '--opened', '--set', 'odour=none');
    expect([clean.code, clean.out]).toEqual([0, expect.not.stringMatching(/hazard/)]);
    const { code, out } = await run('survey', 'opened', '--opened', '--set', 'live_pests=yes');
    expect([code, out]).toEqual([0, expect.stringMatching(/A hazard comes first.*second bag.*Settled by/)]);
  });

  it('a decision of before is told with the hazard that was found since', async () => {
    quilt('agreed', {});
    expect((await run('decide', 'agreed', '--quick', '--record')).code).toBe(0);
    const before = await run('decide', 'agreed', '--quick', '--as-recorded');
    expect(before.err).not.toMatch(/hazard/);
    await run('survey', 'agreed', '--opened', '--set', 'rodent_waste=yes');
    const after = await run('decide', 'agreed', '--quick', '--as-recorded');
    expect(after.out).toBe(before.out);
    expect(after.err).toMatch(/A hazard comes first.*closed bag/);
  });

  it('a choice is refused, and the error says what lifts a stop', async () => {
    quilt('stopped', { damp: 'yes' });
    const { err } = await run('decide', 'stopped', '--quick', '--client', 'chose', 'leave', '--because', 'x');
    expect(err).toMatch(/\[stop-stands\].*mendwise treated/);
    expect(err).not.toMatch(/survey it again/);
    // What is recorded is the answer, and not the treatment that waits behind it.
    expect((await run('decide', 'stopped', '--quick', '--record')).err).toMatch(
      /Recorded in stopped: not yet/,
    );
  });

  it('the list of cases says so, and says where nobody has asked', async () => {
    quilt('clean', {});
    quilt('stopped', { rodent_waste: 'yes' });
    quilt('unasked', undefined);
    const { out } = await run('cases');
    const [clean = '', stopped = '', unasked = ''] = out.split(/(?=stopped|unasked)/);
    expect(clean).not.toMatch(/hazard|safety/);
    expect(stopped).toMatch(/a hazard comes first \(rodent waste\)/);
    expect(unasked).toMatch(/questions on safety not answered/);
    expect(readFileSync(file('unasked'), 'utf8')).not.toContain('damp');
  });
});

describe('a hazard that another survey of the quilt notes', () => {
  const surveyed = (found: object): void => {
    quilt('shared', {});
    const text = `mendwise: 1
survey_of: shared
by: helper-b
survey: { seen: in hand, by: helper-b, on: 2026-03-05, findings: ${JSON.stringify(found)} }
`;
    writeFileSync(file('shared.helper-b'), text);
  };
  const PAPERS = ['estimate', 'work', 'care'];

  it.each(HAZARDS)('%s: stops the quilt, whatever the first survey says', async (_, found) => {
    surveyed({});
    expect((await run('decide', 'shared', '--quick')).out).toMatch(/Go ahead/);
    await run('cases');
    surveyed(found);
    const { out } = await run('decide', 'shared', '--quick');
    expect(out).toMatch(/A hazard comes first.*Settled by/);
    expect(out).not.toMatch(/Go ahead/);
    expect((await run('cases')).out).toMatch(/a hazard comes first/);
  });

  it.each(PAPERS)('%s: not written', async (kind) => {
    surveyed({ rodent_waste: 'yes' });
    const { code, err } = await run('sheet', 'shared', '--kind', kind, '--out', '-', '--quick');
    expect([code, err]).toEqual([2, expect.stringMatching(/a hazard has to be dealt with first/)]);
  });

  it('is told after an interview on the first survey as well', async () => {
    surveyed({ damp: 'yes' });
    const { code, out } = await run('survey', 'shared', '--set', 'joining_kind=none', '--yes');
    expect([code, out]).toEqual([0, expect.stringMatching(/Not yet.*A hazard comes first/)]);
  });

  it('is lifted by what was done about it, and by nothing else', async () => {
    surveyed({ damp: 'yes' });
    const dry = [
      '--hazard',
      'damp',
      '--how',
      'dried flat',
      '--by',
      'helper-a',
      '--confirmed-by',
      'conservator',
    ];
    expect((await run('treated', 'shared', ...dry, '--on', '2026-03-04')).code).toBe(2);
    expect((await run('treated', 'shared', ...dry)).code).toBe(0);
    expect((await run('decide', 'shared', '--quick')).out).toMatch(/Go ahead/);
    const mould = await run('treated', 'shared', ...dry.with(1, 'mould'));
    expect(mould.err).toMatch(/\[hazard-not-noted\]/);
  });

  it('sends nobody to look at it together with the quilt on the table', async () => {
    surveyed({ damp: 'yes', rodent_waste: 'yes' });
    const { out } = await run('helpers', 'shared');
    expect(out).not.toMatch(/on the table|change nothing here/);
    expect(out).toMatch(/Do not open it to see who is right.*Rodent droppings/);
    expect((await run('decide', 'shared')).err).not.toMatch(/Look at it together/);
  });
});
