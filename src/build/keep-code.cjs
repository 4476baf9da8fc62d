'use strict';
// Run by the build: node keep-code.cjs OUTDIR front|program|quick|readers ARGUMENTS…. Runs a command, and keeps what Node compiled for it.
const { writeFileSync } = require('node:fs');
const { join, resolve } = require('node:path');
const v8 = require('node:v8');

// Node takes kept code only under the settings it was kept under: those it starts with, whatever a command sets later.
v8.setFlagsFromString = () => undefined;

const [, , outdir, which, ...typed] = process.argv;
const main = resolve(outdir, 'main.js');
const { run, loaded } = require(main);
process.argv = [process.argv[0], main, ...typed];
const front = run('front.js');
process.on('exit', (code) => {
  const { script } = which === 'front' ? front : (loaded[which] ?? {});
  // A command that fails has not run what is worth keeping.
  if (code !== 0 || !script) return;
  writeFileSync(join(outdir, `${which}.js.code`), script.createCachedData());
});
