#!/usr/bin/env node
'use strict';
// Becomes dist/main.js. Runs the bundles beside it with the code Node compiled when they were built, where this is
// the same Node; any other compiles them anew. CommonJS, because that starts some 15 ms sooner than a module.
const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

/** Runs one bundle; gives what it exports, and the script, for the build to keep its compiled code. */
const run = (name) => {
  const filename = join(__dirname, name);
  // Bundles are pure ASCII, so that this is both right and quick.
  const body = readFileSync(filename, 'latin1');
  let cachedData;
  try {
    cachedData = readFileSync(`${filename}.code`);
  } catch {
    // Built without; then it is compiled now.
  }
  const source = `(function (exports, require, module, __filename, __dirname) {${body}\n})`;
  const script = new Script(source, { filename, ...(cachedData === undefined ? {} : { cachedData }) });
  const bundle = { exports: {} };
  script.runInThisContext()(bundle.exports, require, bundle, filename, __dirname);
  return { exports: bundle.exports, script };
};

const loaded = {};
/** What the commands do is loaded with the first of them that lies in its bundle. */
globalThis.__mendwiseRun = (bundle, name) => {
  loaded[bundle] ??= run(`${bundle}.js`);
  return loaded[bundle].exports[name]();
};

if (require.main === module) run('front.js');
else module.exports = { run, loaded };
