// Bundles the command line: one small entry, one chunk for what each command needs, and the shipped rules read once.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmod, readdir, readFile, rm } from 'node:fs/promises';
import { build } from 'esbuild';

// Tests build to a folder of their own, so that nobody's dist/ changes under them.
const outdir = process.argv[2] ?? 'dist';

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
  format: 'esm',
  legalComments: 'none',
  define: { __MENDWISE_BUILD__: JSON.stringify(digest) },
  // json-rules-engine and commander are CommonJS and ask for "require".
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
};

await rm(outdir, { recursive: true, force: true });
await build({ ...common, entryPoints: ['src/main.ts'], outdir, splitting: true });
await chmod(`${outdir}/main.js`, 0o755);

const keeper = `${outdir}/keep-shipped.js`;
await build({ ...common, entryPoints: ['src/cli/keep-shipped.ts'], outfile: keeper, logLevel: 'error' });
const { status } = spawnSync(process.execPath, [keeper, 'rules', `${outdir}/rules.json`, digest], {
  stdio: 'inherit',
});
await rm(keeper);
process.exitCode = status ?? 1;
