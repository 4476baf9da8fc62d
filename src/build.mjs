// Bundles the command line into dist/: one program split at its dynamic imports, and the shipped rules read once.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmod, readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'esbuild';

// Tests build to a folder of their own, so that nobody's dist/ changes under them.
const outdir = process.argv[2] ?? 'dist';

/** Digest of everything that decides how rules are read: what an older program cached is never used. */
const digestOfSource = async () => {
  const names = (await readdir('src', { recursive: true })).filter((name) => /\.tsx?$/.test(name)).sort();
  const hash = createHash('sha256');
  for (const path of ['package-lock.json', ...names.map((name) => join('src', name))])
    hash.update(path).update(await readFile(path));
  return hash.digest('hex').slice(0, 32);
};

/** zod brings its messages in fifty languages; ours are our own. */
const oneLanguage = {
  name: 'one language',
  setup({ onResolve }) {
    onResolve({ filter: /locales\/index\.js$/ }, ({ resolveDir, importer }) =>
      /[/\\]zod[/\\]/.test(importer) ? { path: join(resolveDir, '../locales/en.js') } : undefined,
    );
  },
};

await rm(outdir, { recursive: true, force: true });
await build({
  entryPoints: {
    main: 'src/main.ts',
    'cache-rules': 'src/cli/cache-rules.ts',
  },
  outdir,
  bundle: true,
  splitting: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  minify: true,
  legalComments: 'none',
  chunkNames: 'parts/[name]-[hash]',
  define: { __MENDWISE_BUILD__: JSON.stringify(await digestOfSource()) },
  // Some libraries are CommonJS and ask for Node's own modules by require().
  banner: {
    js: "import { createRequire as createRequireOf } from 'node:module'; const require = createRequireOf(import.meta.url);",
  },
  plugins: [oneLanguage],
});
await chmod(join(outdir, 'main.js'), 0o755);
const cached = spawnSync(process.execPath, [join(outdir, 'cache-rules.js'), 'rules', outdir], {
  stdio: 'inherit',
});
await rm(join(outdir, 'cache-rules.js'));
// Editors find the schemas beside the rules; nobody keeps them by hand.
spawnSync(process.execPath, [join(outdir, 'main.js'), 'rules', 'schema', '--rules', 'rules'], {
  stdio: 'ignore',
  env: { ...process.env, XDG_CACHE_HOME: outdir },
});
await rm(join(outdir, 'mendwise'), { recursive: true, force: true });
process.exitCode = cached.status ?? 1;
