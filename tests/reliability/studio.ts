import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest';
import { run } from '../scenarios/run.ts';

/** As locks and temps name this machine. */
export const HOST = hostname().replace(/[^A-Za-z0-9-]/g, '-');
/** Process ids end at 4194304 on Linux (proc(5), pid_max), so this one never ran. */
export const DEAD = `${HOST}.4194305`;

/** A studio made by the command itself, new for each test; gives paths in it. */
export const freshStudio = (): ((...parts: string[]) => string) => {
  let parent = '';
  let number = 0;
  beforeAll(async () => {
    parent = mkdtempSync(join(tmpdir(), 'mendwise-studio-'));
    const { code, err } = await run(parent, 'start', 'made');
    if (code !== 0) throw new Error(err);
  });
  beforeEach(() => {
    number += 1;
    cpSync(join(parent, 'made'), join(parent, `studio-${number}`), { recursive: true });
  });
  afterEach(() => rmSync(join(parent, `studio-${number}`), { recursive: true, force: true }));
  afterAll(() => rmSync(parent, { recursive: true, force: true }));
  return (...parts) => join(parent, `studio-${number}`, ...parts);
};

/** The name of the first case of such a studio, as commands take it; empty where it holds none. */
export const firstCaseIn = (at: (...parts: string[]) => string) => (): string =>
  readdirSync(at('cases'))
    .find((each) => each.endsWith('.yaml'))
    ?.replace('.yaml', '') ?? '';
