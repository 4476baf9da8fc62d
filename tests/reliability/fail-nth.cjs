'use strict';
// node fail-nth.cjs MAIN TEMPLATE SCRATCH WAY FROM STEP ARGUMENTS…
// Runs a command once for each Nth call to the file system, each time on a fresh copy of a studio, and lets that call
// fail: `refuse` before it does anything, `fill` after it wrote half (a disk that is full). Prints a line of JSON a run.
const promises = require('node:fs/promises');
const fs = require('node:fs');
const { syncBuiltinESMExports } = require('node:module');
const { join } = require('node:path');
const { pathToFileURL } = require('node:url');

const [, , main, template, scratch, way, from, step, ...typed] = process.argv;
const real = { ...promises };
let calls = 0;
let failAt = 0;
let failed = '';

const { readFileSync, statSync } = fs;
const fault = (code) => Object.assign(new Error(`${code}: put in by the test`), { code });
const counted =
  (name, work, half) =>
  async (...given) => {
    calls += 1;
    if (calls !== failAt) return work(...given);
    failed = name;
    if (way === 'refuse') throw fault('EIO');
    if (half) await half(...given);
    throw fault('ENOSPC');
  };
const half = {
  writeFile: (path, text, options) =>
    real.writeFile(path, String(text).slice(0, String(text).length / 2), options),
  copyFile: async (source, path) => real.writeFile(path, (await real.readFile(source)).subarray(0, 10)),
};
for (const name of Object.keys(real)) {
  if (typeof real[name] === 'function') promises[name] = counted(name, real[name], half[name]);
}
const open = promises.open;
promises.open = async (...given) => {
  const handle = await open(...given);
  handle.sync = counted('sync', handle.sync.bind(handle));
  return handle;
};

syncBuiltinESMExports();

/** What every file of a folder holds, temps and locks left out: those are swept by the next write. */
const contents = (folder, below = '') =>
  fs.readdirSync(join(folder, below), { withFileTypes: true }).flatMap((entry) => {
    const path = join(below, entry.name);
    if (entry.isDirectory()) return contents(folder, path);
    return /\.(tmp|lock)$/.test(entry.name) ? [] : [[path, readFileSync(join(folder, path), 'latin1')]];
  });

// Loading the program is not what is tested here: reads that do not wait are counted once it is loaded.
const countPlainReads = () => {
  for (const [name, work] of Object.entries({ readFileSync, statSync }))
    fs[name] = (...given) => {
      calls += 1;
      if (calls !== failAt) return work(...given);
      failed = name;
      throw fault(way === 'refuse' ? 'EIO' : 'ENOSPC');
    };
  syncBuiltinESMExports();
};
let said = { out: '', err: '' };
process.stdout.setMaxListeners(0);
process.stderr.setMaxListeners(0);
const print = process.stdout.write.bind(process.stdout);

let run;
const once = async (nth, tell = print) => {
  const folder = join(scratch, `n${nth}`);
  fs.cpSync(template, folder, { recursive: true });
  process.chdir(folder);
  said = { out: '', err: '' };
  for (const [stream, name] of [
    [process.stdout, 'out'],
    [process.stderr, 'err'],
  ]) {
    stream.write = (text, done) => {
      said[name] += text;
      done?.();
      return true;
    };
  }
  process.exitCode = undefined;
  [calls, failAt, failed] = [0, nth, ''];
  await run(typed);
  // A run may make fewer calls than the one it is named after; what this script does itself never fails.
  failAt = 0;
  const result = { nth, calls, failed, code: process.exitCode, ...said, files: contents(folder) };
  process.chdir(scratch);
  fs.rmSync(folder, { recursive: true });
  tell(`${JSON.stringify(result)}\n`);
  return result;
};

const all = async () => {
  process.argv = [process.argv[0], main, '--version'];
  process.stdout.write = () => true;
  ({ run } = await import(pathToFileURL(main)));
  // The first run loads the rest of the program; the second fails nowhere, and says what there is to write.
  await once(-1, () => undefined);
  countPlainReads();
  let { calls: last } = await once(0);
  for (let nth = Number(from); nth <= last; nth += Number(step))
    last = Math.max(last, (await once(nth)).calls);
};
all().then(
  () => {
    process.exitCode = 0;
  },
  (error) => {
    throw error;
  },
);
