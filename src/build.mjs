// Bundles the command line: a small front, the work behind it, the shipped rules read once, and compiled code.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmod, copyFile, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { build } from 'esbuild';
import {
  bundleOf,
  childProcessLate,
  doorPaths,
  doors,
  oneLanguage,
  READERS,
  readElsewhere,
  runElsewhere,
  shareProblems,
  withoutDebug,
} from './build/plugins.mjs';

// Tests build to a folder of their own, so that nobody's dist/ changes under them.
const outdir = process.argv[2] ?? 'dist';
const COMMANDS = 'src/cli/commands';

/** Digest of everything that decides how rules are read: what an older program kept is never used. */
const digestOfSource = async () => {
  const names = (await readdir('src', { recursive: true })).filter((name) => /\.(ts|tsx)$/.test(name)).sort();
  const hash = createHash('sha256');
  for (const path of ['package-lock.json', ...names.map((name) => `src/${name}`)]) {
    hash
      .update(`${path}\0`)
      .update(await readFile(path))
      .update('\0');
  }
  return hash.digest('hex').slice(0, 32);
};

const digest = await digestOfSource();
const common = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  // A script run from compiled code cannot import(); what is asked for late is required late.
  supported: { 'dynamic-import': false },
  minify: true,
  legalComments: 'none',
  define: { __MENDWISE_BUILD__: JSON.stringify(digest), 'import.meta.url': '__url' },
  banner: { js: "const __url = require('node:url').pathToFileURL(__filename).href;" },
};
// What these runs keep for their next start is for this build alone, and no business of the account's own cache.
const cache = resolve(outdir, 'cache');
const env = { ...process.env, XDG_CACHE_HOME: cache };
const run = (script, args, stdio = 'inherit') =>
  spawnSync(process.execPath, [script, ...args], { stdio, env }).status ?? 1;

await rm(outdir, { recursive: true, force: true });
await build({
  ...common,
  entryPoints: ['src/main.ts'],
  outfile: `${outdir}/front.js`,
  plugins: [childProcessLate, shareProblems('front'), runElsewhere],
});
const commandFiles = (await readdir(COMMANDS)).map((name) => `${COMMANDS}/${name}`);
const paths = await doorPaths(commandFiles);
const work = (bundle, within, plugins = []) =>
  build({
    ...common,
    stdin: { contents: doors(within), resolveDir: '.' },
    outfile: `${outdir}/${bundle}.js`,
    plugins: [oneLanguage, withoutDebug, shareProblems('program'), ...plugins],
  });
const readers = new Set();
await work(
  'program',
  paths.filter((path) => bundleOf(path) === 'program'),
);
await work(
  'quick',
  paths.filter((path) => bundleOf(path) === 'quick'),
  [readElsewhere(readers)],
);
await work(READERS, [...readers].sort());
// A thread has a program of its own: it cannot share the class of problems that front and program share.
await build({
  ...common,
  entryPoints: ['src/cli/workers/try-worker.ts'],
  outfile: `${outdir}/try-worker.js`,
  plugins: [oneLanguage, withoutDebug],
});
await copyFile('src/build/launcher.cjs', `${outdir}/main.js`);
await chmod(`${outdir}/main.js`, 0o755);
await writeFile(`${outdir}/package.json`, '{ "type": "commonjs" }\n');

const keeper = `${outdir}/keep-shipped.js`;
await build({
  ...common,
  entryPoints: ['src/cli/keep-shipped.ts'],
  outfile: keeper,
  plugins: [oneLanguage, withoutDebug],
  logLevel: 'error',
});
process.exitCode = run(keeper, ['rules', outdir]);
await rm(keeper);
// Editors find the schemas beside the rules; nobody keeps them by hand.
run(`${outdir}/main.js`, ['rules', 'schema', '--rules', 'rules'], 'ignore');

// What these runs compile is kept, so that later starts need not compile it again.
run('src/build/keep-code.cjs', [outdir, 'front', '--help'], 'ignore');
const sample = (await readdir('cases')).find((name) => /\.ya?ml$/.test(name));
if (sample) {
  const answer = ['decide', `cases/${sample}`, '--json', '--rules', 'rules'];
  run('src/build/keep-code.cjs', [outdir, 'program', ...answer], 'ignore');
  // The first reads the case, with the readers; the second finds what the first has kept of it.
  for (const bundle of [READERS, 'quick'])
    run('src/build/keep-code.cjs', [outdir, bundle, ...answer, '--quick'], 'ignore');
}
await rm(cache, { recursive: true, force: true });
