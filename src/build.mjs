// Bundles the command line: one small entry, and one chunk for what each command needs.
import { chmod, rm } from 'node:fs/promises';
import { build } from 'esbuild';

await rm('dist', { recursive: true, force: true });
await build({
  entryPoints: ['src/main.ts'],
  outdir: 'dist',
  bundle: true,
  splitting: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  legalComments: 'none',
  // json-rules-engine and commander are CommonJS and ask for "require".
  banner: { js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);" },
});
await chmod('dist/main.js', 0o755);
