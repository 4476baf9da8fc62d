// Bundles the command line: one small entry, and one chunk for what each command needs.
import { chmod, rm } from 'node:fs/promises';
import { build } from 'esbuild';

// Tests build to a folder of their own, so that nobody's dist/ changes under them.
const outdir = process.argv[2] ?? 'dist';
await rm(outdir, { recursive: true, force: true });
await build({
  entryPoints: ['src/main.ts'],
  outdir,
  bundle: true,
  splitting: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  legalComments: 'none',
  // json-rules-engine and commander are CommonJS and ask for "require".
  banner: { js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);" },
});
await chmod(`${outdir}/main.js`, 0o755);
