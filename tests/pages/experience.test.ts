import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../scenarios/run.ts';
import { FULL } from '../tiers.ts';
import { overhangOf, violationsOn } from './axe.ts';
import { canLook, launch } from './browser.ts';

const looking = canLook();
let browser: Browser;
let folder: string;

/** Pages that a studio with a history writes for itself or a peer, as the command writes them. */
const PAGES = [
  ['helpers', /^Helpers side by side$/, ['helpers', '--html']],
  ['helpers of one quilt', /^Helpers side by side$/, ['helpers', 'kiln-yard-squares', '--html']],
  ['learned', /^What experience says$/, ['learned', '--html']],
  ['rules', /rule/i, ['rules', 'book', '--output']],
] as const;
const fileOf = (name: string): string => join(folder, `${name.replaceAll(' ', '-')}.html`);

beforeAll(async () => {
  if (!looking) return;
  folder = mkdtempSync(join(tmpdir(), 'mendwise-experience-'));
  browser = await launch();
  cpSync('rules', join(folder, 'studio', 'rules'), { recursive: true });
  cpSync('cases/demo', join(folder, 'studio', 'cases'), { recursive: true });
  for (const [name, , words] of PAGES) {
    const { code, err } = await run(join(folder, 'studio'), ...words, fileOf(name));
    if (code !== 0) throw new Error(`${name}: ${err}`);
  }
}, 240_000);
afterAll(async () => {
  if (!looking) return;
  await browser.close();
  rmSync(folder, { recursive: true });
});

describe.skipIf(!looking).each(PAGES)('the page %s in Chromium', (name, title) => {
  it('passes axe-core and needs no sideways scrolling, wide and narrow', async () => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, bypassCSP: true });
    const page = await context.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(`file://${fileOf(name)}`);
    expect(await page.title()).toMatch(title);
    for (const width of [1280, 640, 320]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await overhangOf(page), `${width}`).toBeLessThanOrEqual(0);
      // Between the two nothing but the width differs; what is only wrong when narrow is found at its narrowest.
      if (width !== 640 || FULL) expect(await violationsOn(page), `${width}`).toEqual([]);
    }
    expect(asked.filter((url) => !url.startsWith('file:') && !url.startsWith('data:'))).toEqual([]);
    await context.close();
  });
});
