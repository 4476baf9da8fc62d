import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { flat, run } from './run.ts';
import { Session } from './session.ts';

// That a client approves anew beyond a tenth more is common practice, no source; the figure is studio.reapproval.
const ROOT = new URL('../..', import.meta.url).pathname;
const DAY = ['--as-of', '2026-11-27'];
let folder: string;
let shipped: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'mendwise-reopening-'));
  mkdirSync(join(folder, 'cases'));
  shipped = readFileSync(join(ROOT, 'cases', 'orchard-ladder.yaml'), 'utf8');
  for (const name of ['bunk-bed-scraps', 'honeycomb-remnant', 'parlour-fans-crazy'])
    copyFileSync(join(ROOT, 'cases', `${name}.yaml`), join(folder, 'cases', `${name}.yaml`));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const LATER_LOOKS = /resurveys:[\s\S]*?(?=expect:)/;

/** The shipped case under another name, with its approval and its later looks put in place of those it has. */
function build(name: string, approved: string, looks: string): void {
  const text = shipped
    .replace('case: orchard-ladder', `case: ${name}`)
    .replace(/approved: .*\n/, approved)
    .replace(LATER_LOOKS, looks)
    .replace(/expect:[\s\S]*$/, '');
  writeFileSync(join(folder, 'cases', `${name}.yaml`), text);
}
/** What was found when it was opened. */
const opened = (): string => LATER_LOOKS.exec(shipped)?.[0] ?? '';
const answer = async (name: string) =>
  JSON.parse((await run(folder, 'decide', name, '--quick', '--json', ...DAY)).out);
const page = async (name: string): Promise<string> =>
  (await run(folder, 'decide', name, '--quick', ...DAY)).out;
/** The part of a page under a heading that begins so. */
const under = (out: string, title: string): string => {
  const at = out.indexOf(`\n${title}`);
  return at < 0 ? '' : flat(out.slice(at).split(/\n\n/)[0] ?? '');
};

describe('a second survey after an estimate was approved', () => {
  test('decides anew, says what was found, which reasons came and went, and asks for new written approval', async () => {
    build('before-opening', 'approved: { on: 2026-03-16, hours: 14, price: 700 }\n', '');
    build('after-opening', 'approved: { on: 2026-03-16, hours: 14, price: 700 }\n', opened());
    const [before, after] = [await answer('before-opening'), await answer('after-opening')];
    expect(before).toMatchObject({
      treatment: 'reassemble',
      since_approval: { changed: [], gained: [], lost: [] },
    });
    const since = after.since_approval;
    expect(after.treatment).toBe('backing');
    expect(since).toMatchObject({
      approved_on: '2026-03-16',
      as_approved: { standing: 'go_ahead', treatment: 'reassemble' },
      needs_approval: true,
      hours: { approved: 14 },
      price: { approved: 700, now: after.estimates.price.likely },
    });
    const names = (list: { rule: string }[]): string[] => list.map(({ rule }) => rule);
    expect(names(since.lost)).toEqual(
      names(before.reasons).filter((rule) => !names(after.reasons).includes(rule)),
    );
    expect(names(since.gained)).toContain('spent-batting-comes-out');
    expect(since.changed).toContainEqual({
      finding: 'batting_migrated',
      label: 'share of the filling that has moved',
      from: '10 %',
      to: '55 %',
    });

    const told = under(await page('after-opening'), 'Since the estimate was approved on 2026-03-16');
    for (const said of [
      'against 14 approved (+',
      'against $700 approved (+',
      'That is a rise of more than 10 %: new written approval is needed before work goes on.',
      'as it was then known: go ahead, put it back together. Now: go ahead, add a backing, held by tacks.',
      'Found since then: - opened: yes, before no',
      'Reasons gained:',
      'The batting has moved or is crumbling',
      'Reasons that no longer count: - Once the worst places are mended its cloth will be worn',
    ])
      expect(told).toContain(said);
    expect(under(await page('before-opening'), 'Since the estimate')).not.toContain('Found since then');
  });

  test('the mark is tight: at a tenth more the approval stands, a little beyond it does not', async () => {
    build('unapproved', '', opened());
    const { hours, price } = (await answer('unapproved')).estimates;
    const hoursAt = (rise: number): string =>
      `approved: { on: 2026-03-16, hours: ${hours.likely / (1 + rise)}, price: ${price.likely} }\n`;
    build('within', hoursAt(0.09), opened());
    build('beyond', hoursAt(0.12), opened());
    expect((await answer('within')).since_approval.needs_approval).toBe(false);
    expect((await answer('beyond')).since_approval.needs_approval).toBe(true);
    expect(under(await page('within'), 'Since the estimate')).toContain(
      'No rise of more than 10 %: the approval stands.',
    );
    build('dearer', `approved: { on: 2026-03-16, price: ${price.likely / 1.2} }\n`, opened());
    expect((await answer('dearer')).since_approval).toMatchObject({ needs_approval: true, hours: null });
  });

  test('where the work is no longer advised, says so and why', async () => {
    build(
      'an-heirloom-after-all',
      'approved: { on: 2026-03-16, hours: 14, price: 700 }\n',
      'resurveys:\n  - { on: 2026-03-20, by: helper-a, findings: { tied_to_event: yes } }\n',
    );
    const told = under(await page('an-heirloom-after-all'), 'Since the estimate');
    expect(told).toContain('The work that was approved is no longer advised: tell the client');
    expect(told).toContain('Now: refer to a specialist.');
    expect(told).toContain('Found since then: - tied to a known event or person: yes, before no');
    expect(told).toContain('Reasons gained: - It is tied to a known person or event');
    const letter = (
      await run(
        folder,
        ...['sheet', 'an-heirloom-after-all', '--quick', '--format', 'text', '--out', '-', ...DAY],
      )
    ).out;
    expect(flat(letter)).toContain('The work you approved is work we no longer advise.');
  });

  test('the estimate tells the client the same', async () => {
    build('told-again', 'approved: { on: 2026-03-16, hours: 14, price: 700 }\n', opened());
    const sheet = flat(
      (
        await run(
          folder,
          'sheet',
          'told-again',
          '--kind',
          'estimate',
          '--format',
          'text',
          '--out',
          '-',
          ...DAY,
        )
      ).out,
    );
    for (const said of [
      'Since your approval',
      'Price: Approved $700; Now $',
      'When you approved, our answer was: We advise you to put it back together.',
      'Reasons that have come in',
      'Reasons that no longer count',
      'we ask for your approval again before we go on',
    ])
      expect(sheet).toContain(said);
  });

  test('at 40 columns no line is longer', async () => {
    build('narrow', 'approved: { on: 2026-03-16, hours: 14, price: 700 }\n', opened());
    const session = new Session([process.execPath, inject('built'), 'decide', 'narrow', '--quick', ...DAY], {
      cwd: folder,
      columns: 40,
      env: { NO_COLOR: '1' },
    });
    expect(await session.end()).toBe(0);
    const lines = session.screen.split('\n');
    expect(lines.filter((line) => line.length > 40)).toEqual([]);
    expect(flat(session.screen)).toContain('new written approval is needed before work goes on');
  });
});

describe('a decline says what would let us say yes', () => {
  const decline = async (name: string): Promise<string> => (await run(folder, 'decide', name, ...DAY)).out;

  test('under one heading, for what the client can choose and for what a second look can find', async () => {
    const out = await decline('bunk-bed-scraps');
    expect(out.match(/would let us say yes/g)).toHaveLength(1);
    const told = under(out, 'What would let us say yes\n');
    expect(told).toMatch(
      /If the client chooses: - Intended use: .*If a second look finds: - How fragile the fabric is/,
    );
    expect(told).toContain('on a guest bed (now on a child’s bed or in heavy use). Then: go ahead, tie it.');
    expect(out).not.toContain('a second look would have to find');
    const letter = (
      await run(
        folder,
        ...['sheet', 'bunk-bed-scraps', '--kind', 'decline', '--format', 'text', '--out', '-', ...DAY],
      )
    ).out;
    expect(flat(letter)).toMatch(
      /What would let us say yes -+ What you could choose: - Intended use: if it were “kept in storage” instead of “on a child’s bed or in heavy use”, we would advise you to leave it as it is\..* What a second look could show: - How fragile the fabric is \(thin percale\): if it were “worn” instead of “weak”/,
    );
  });

  test('also where a second look alone could bring it', async () => {
    const told = under(await decline('honeycomb-remnant'), 'What would let us say yes\n');
    expect(told).toMatch(/If a second look finds: - Number of lost patches: \d+/);
  });

  test('and where nothing realistic would, says so, in the letter too', async () => {
    const out = await decline('parlour-fans-crazy');
    expect(out).toContain('\nNothing realistic that is known would let us say yes\n');
    expect(out).not.toContain('What would let us say yes');
    const letter = (
      await run(
        folder,
        ...['sheet', 'parlour-fans-crazy', '--kind', 'decline', '--format', 'text', '--out', '-', ...DAY],
      )
    ).out;
    expect(flat(letter)).toContain('Among all that could well be so, we found none.');
  });
});
