// `npm run --silent bench -- [NAME …] [--json]`: runs every measurement of this folder, or those named, one after the
// other so that none disturbs another. With --json, and none named, only the warm process is measured (some minutes).
import { spawnSync } from 'node:child_process';
import { cpus } from 'node:os';

const NAMES = ['start', 'estimates', 'evaluators', 'try', 'many', 'survey', 'warm'] as const;

const typed = process.argv.slice(2);
const json = typed.includes('--json');
const named = typed.filter((word) => word !== '--json');
const unknown = named.filter((word) => !NAMES.some((name) => name === word));
if (unknown.length > 0) {
  console.error(`There is no measurement "${unknown.join('", "')}". There are: ${NAMES.join(', ')}.`);
  process.exit(3);
}

/** The data come last, whatever else was asked for. */
const chosen = NAMES.filter((name) => (named.length > 0 ? named.includes(name) : !json || name === 'warm'));
const wanted = json && !chosen.includes('warm') ? [...chosen, 'warm' as const] : chosen;
console.log(`Node ${process.version}, ${cpus().length} cores (${cpus()[0]?.model})`);
for (const name of wanted) {
  const script = new URL(`${name}.ts`, import.meta.url).pathname;
  const args = ['--import', 'tsx', script, ...(json && name === 'warm' ? ['--json'] : [])];
  const { status } = spawnSync(process.execPath, args, { stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 1);
}
