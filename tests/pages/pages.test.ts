import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { KINDS } from '../../src/documents/kinds/all.ts';
import { toHtml } from '../../src/documents/render/html.tsx';
import { shippedSheet } from '../documents/papers.ts';
import { FULL } from '../tiers.ts';
import { overhangOf, violationsOn } from './axe.ts';
import { canLook, launch } from './browser.ts';

const looking = canLook();
/** Letter lies between the two, and is printed to in the long tier. */
const FORMATS = FULL ? (['A4', 'Letter', 'A5'] as const) : (['A4', 'A5'] as const);
let browser: Browser;
let folder: string;

beforeAll(async () => {
  if (!looking) return;
  folder = mkdtempSync(join(tmpdir(), 'mendwise-pages-'));
  browser = await launch();
}, 120_000);
afterAll(async () => {
  if (!looking) return;
  await browser.close();
  rmSync(folder, { recursive: true });
});

/** Opens a document as a reader would, with every address but its own out of reach. */
async function open(kind: string): Promise<{ page: Page; asked: string[] }> {
  const file = join(folder, `${kind}.html`);
  writeFileSync(file, toHtml(await shippedSheet(kind)));
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, bypassCSP: true });
  const page = await context.newPage();
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.goto(`file://${file}`);
  return { page, asked };
}

describe.skipIf(!looking).each(KINDS)('the $name page in Chromium', ({ name }) => {
  let page: Page;
  let asked: string[];
  beforeAll(async () => {
    if (looking) ({ page, asked } = await open(name));
  });
  afterAll(async () => page?.context().close());

  it('passes axe-core, WCAG 2.2 A and AA with contrast, and asks for nothing from anywhere', async () => {
    expect(await violationsOn(page)).toEqual([]);
    expect(asked.filter((url) => !url.startsWith('file:') && !url.startsWith('data:'))).toEqual([]);
  });

  // 1280 CSS pixels at 200 % leave 640 (WCAG 2.2, 1.4.4); 320 is reflow (1.4.10).
  it.each([640, 320])('needs no sideways scrolling at %i pixels', async (width) => {
    await page.setViewportSize({ width, height: 900 });
    expect(await overhangOf(page)).toBeLessThanOrEqual(0);
  });

  // A5 is nobody's paper here; its many breaks put the rules for breaking to the test.
  it('prints to paper with no row cut and no heading left behind', async () => {
    await page.setViewportSize({ width: 900, height: 900 });
    const marks = await page.evaluate(mark);
    expect(marks.length).toBeGreaterThan(5);
    for (const format of FORMATS) {
      const file = join(folder, `${name}-${format}.pdf`);
      await page.pdf({ path: file, format });
      const pages = pagesOf(file).map((lines) => lines.join(' '));
      const pageOf = (sign: string): number => pages.findIndex((text) => text.includes(sign));
      for (const { what, signs } of marks) {
        const on = signs.map(pageOf);
        expect(Math.min(...on), `${what}: ${signs.join(' ')} is not on paper`).toBeGreaterThanOrEqual(0);
        expect(new Set(on).size, `${name} on ${format}: ${what} is parted`).toBe(1);
      }
      if (format !== 'A5') expect(pages.length).toBeLessThanOrEqual(9);
    }
  });
});

interface Mark {
  readonly what: string;
  readonly signs: readonly string[];
}

/** Runs in the page: puts a sign at the beginning and at the end of all that must not be parted. */
function mark(): Mark[] {
  const marks: Mark[] = [];
  const sign = (to: Element, where: 'first' | 'last', name: string): string => {
    const made = document.createElement('span');
    made.textContent = ` ${name} `;
    made.style.fontSize = '5px';
    if (where === 'first') to.prepend(made);
    else to.append(made);
    return name;
  };
  const said = (of: Element): string => (of.textContent ?? '').trim().slice(0, 40);
  for (const [index, row] of [
    ...document.querySelectorAll('table.facts tr, table.figures tbody tr'),
  ].entries()) {
    const what = `row "${said(row)}"`;
    const [first, last] = [row.firstElementChild, row.lastElementChild];
    if (first === null || last === null) continue;
    marks.push({ what, signs: [sign(first, 'first', `Rq${index}b`), sign(last, 'last', `Rq${index}e`)] });
  }
  for (const [index, body] of [...document.querySelectorAll('table.compare tbody')].entries()) {
    const what = `question "${said(body)}"`;
    const cells = [...body.querySelectorAll('th, td')];
    marks.push({
      what,
      signs: cells.map((cell, part) => sign(cell, part === 0 ? 'first' : 'last', `Cq${index}p${part}`)),
    });
  }
  for (const [index, heading] of [...document.querySelectorAll('h2, h3, table.figures thead')].entries()) {
    const what = `heading "${said(heading)}" from what follows it`;
    const head = heading.querySelector('th') ?? heading;
    const next = heading.nextElementSibling;
    // A drawing holds no sign, so its title stands for it; a table begins with its first row.
    const follows = next?.querySelector('figcaption, tbody th, li') ?? next;
    if (follows === null || follows === undefined) continue;
    marks.push({ what, signs: [sign(head, 'last', `Hq${index}b`), sign(follows, 'first', `Hq${index}e`)] });
  }
  return marks;
}

describe.skipIf(!looking)('the comparison on paper', () => {
  it('keeps each question with its five answers on one page', async () => {
    const { page } = await open('decision');
    const file = join(folder, 'compare.pdf');
    await page.pdf({ path: file, format: 'A4' });
    const names = await page.$$eval('table.compare th[scope=rowgroup]', (all) =>
      all.map((each) => each.textContent ?? ''),
    );
    const columns = await page.$$eval('table.compare thead th', (all) =>
      all.map((each) => each.textContent ?? ''),
    );
    await page.context().close();
    const pages = pagesOf(file).map((lines) => lines.join('\n'));
    expect(names).toHaveLength(8);
    expect(columns).toHaveLength(5);
    // A name may run over two lines, as the fonts of the machine will have it: its first two words do not.
    const begin = columns.map((name) => name.trim().split(/\s+/).slice(0, 2).join(' '));
    for (const name of names) {
      const where = pages.filter((text) => text.includes(name));
      expect(where.length, name).toBeGreaterThan(0);
      // The columns are named again on every page that holds part of the table.
      expect(
        where.filter((text) => begin.every((name) => text.includes(name))),
        name,
      ).not.toEqual([]);
    }
  });

  it('shows its patterns and letters without any colour', async () => {
    const { page } = await open('survey');
    const drawn = await page.$$eval('svg.quilt pattern', (all) => all.map((each) => each.innerHTML));
    expect(new Set(drawn).size).toBe(drawn.length);
    expect(drawn.length).toBeGreaterThan(1);
    await page.context().close();
  });
});

/** Lines of text page by page, without the page number at the foot. */
function pagesOf(file: string): string[][] {
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  return text
    .split('\f')
    .map((page) =>
      page
        .split('\n')
        .map((line) => line.trim())
        .filter((line) => line !== '' && !/^\d+ \/ \d+$/.test(line)),
    )
    .filter((lines) => lines.length > 0);
}
