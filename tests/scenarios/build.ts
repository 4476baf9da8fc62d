import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

declare module 'vitest' {
  interface ProvidedContext {
    /** The built entry, as a user would run it. */
    readonly built: string;
    /** A folder for the caches of commands, so that nobody's own are read or written. */
    readonly caches: string;
  }
}

interface Project {
  provide(key: 'built' | 'caches', value: string): void;
  readonly vitest: { readonly filenamePattern?: readonly string[] | undefined };
}

/** Runs that name other tests only need no build. */
const isWanted = (names: readonly string[] | undefined): boolean =>
  names === undefined ||
  names.length === 0 ||
  names.some((name) => /scenarios|reliability|pages|^(\.\/)?tests\/?$/.test(name));

const ROOT = new URL('../..', import.meta.url).pathname;

/** Builds the command once to a folder of its own, with its rules beside it, for all scenarios. */
export default function setup(project: Project): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'mendwise-built-'));
  project.provide('caches', join(folder, 'caches'));
  // A build that is there already, such as an installed one, can be tried by the same scenarios.
  const { MENDWISE_BUILT: there } = process.env;
  if (there !== undefined) project.provide('built', there);
  else if (isWanted(project.vitest.filenamePattern)) {
    execFileSync(process.execPath, ['src/build.mjs', join(folder, 'dist')], { cwd: ROOT });
    cpSync(join(ROOT, 'rules'), join(folder, 'rules'), { recursive: true });
    project.provide('built', join(folder, 'dist', 'main.js'));
  }
  return () => rmSync(folder, { recursive: true, force: true });
}
