import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run, words } from './run.ts';

const SHIPPED = fileURLToPath(new URL('../../', import.meta.url));
let here = '';

/** A studio with the shipped rules, a copy of them to try, and one case that stands at a mark. */
beforeAll(() => {
  here = mkdtempSync(join(tmpdir(), 'rules-'));
  cpSync(join(SHIPPED, 'rules'), join(here, 'rules'), { recursive: true });
  cpSync(join(SHIPPED, 'rules'), join(here, 'next'), { recursive: true });
  mkdirSync(join(here, 'cases'));
  writeFileSync(
    join(here, 'cases', 'hedge-row.yaml'),
    `mendwise: 1
case: hedge-row
client: { intended_use: guest_bed, wish: repair, owners_agree: yes }
quilt: { size: { width: 60 in, height: 60 in } }
survey:
  seen: in hand
  families: { A: { fragility: sound, share: 100 % } }
  counts: { of: 100, lost: 51 }
decisions:
  - { on: 2026-03-01, kind: otherwise, treatment: reassemble, overrides: [more-new-than-old], because: It was a gift. }
`,
  );
});
afterAll(() => rmSync(here, { recursive: true, force: true }));

describe('rules check', () => {
  it('passes the shipped rules and says what it leaves out', async () => {
    const { code, out } = await run(here, 'rules', 'check');
    expect(out).toMatch(/0 errors/);
    expect(out).toMatch(/treated as independent/);
    expect(code).toBe(0);
  });
});

describe('rules amend, tried before it is kept', () => {
  it('asks for the reason, and off a terminal names what is missing', async () => {
    const { code, err } = await run(
      here,
      ...words('rules amend more-new-than-old --rules next --set title=Other'),
    );
    expect(err).toMatch(/--because is missing/);
    expect(code).toBe(3);
  });

  it('refuses what would leave a fault, and writes nothing', async () => {
    const before = readFileSync(join(here, 'next/stages/extent.yaml'), 'utf8');
    const { code, err } = await run(
      here,
      ...['rules', 'amend', 'more-new-than-old', '--rules', 'next', '--because', 'Slip.'],
      ...['--set', 'when.all.0.more than=150 %'],
    );
    expect(err).toMatch(/next\/stages\/extent\.yaml:\d+:\d+: error/);
    expect(code).toBe(2);
    expect(readFileSync(join(here, 'next/stages/extent.yaml'), 'utf8')).toBe(before);
  });

  it('shows whose answer would change, from what to what, by which rule, beside what was decided', async () => {
    const amended = await run(
      here,
      ...['rules', 'amend', 'more-new-than-old', '--rules', 'next', '--because', 'Two held.'],
      ...['--set', 'when.all.0.more than=60 %'],
    );
    expect(amended.code, amended.err).toBe(0);
    const { code, out } = await run(here, ...words('rules try --with next --json --as-of 2099-01-01'));
    expect(code).toBe(1);
    const tried = JSON.parse(out);
    expect(tried.rules_changed).toEqual(['more-new-than-old']);
    const own = tried.changes.find((each: { case: string }) => each.case === 'hedge-row');
    expect(own.because).toEqual(['more-new-than-old']);
    expect(own.changes).toContainEqual({ of: 'standing', from: 'decline', to: 'go_ahead' });
    expect(own.decided[0]).toMatchObject({ overrides: ['more-new-than-old'] });
  }, 180_000);

  it('shows how the rule came to be', async () => {
    const { out } = await run(here, 'rules', 'show', 'more-new-than-old', '--history', '--rules', 'next');
    expect(out).toMatch(/Two held\./);
    expect(out).toMatch(/before, when\.all\.0\.more than: 50 %/);
  });
});

describe('rules try', () => {
  it('exits 0 where nothing changes', async () => {
    const { code, out } = await run(here, 'rules', 'try', '--with', 'rules', '--as-of', '2099-01-01');
    expect(out).toMatch(/^0 cases of \d+ change; 0 rules differ/);
    expect(code).toBe(0);
  }, 180_000);
});

describe('rules coverage', () => {
  it('shows which cases of the studio exercise a rule, with no case at the marks beside them', async () => {
    const { code, out } = await run(here, 'rules', 'coverage', 'more-new-than-old', '--json');
    const [covered] = JSON.parse(out);
    expect(covered.rule).toBe('more-new-than-old');
    expect(covered.true).toContain('hedge-row');
    expect(code).toBe(1);
  });
});

describe('rules book', () => {
  it('prints every rule with its reason and source as one page that fetches nothing', async () => {
    const { code } = await run(here, 'rules', 'book', '--output', 'book.html');
    expect(code).toBe(0);
    const html = readFileSync(join(here, 'book.html'), 'utf8');
    const rules = JSON.parse((await run(here, 'rules', 'show', '--json')).out);
    for (const { rule } of rules) expect(html).toContain(rule);
    expect(html).not.toMatch(/<script|src="http|<link/);
  }, 180_000);
});
