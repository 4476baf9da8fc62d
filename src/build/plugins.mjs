import { readFile } from 'node:fs/promises';
import { dirname, relative, resolve } from 'node:path';

/** zod brings its messages in fifty languages; ours are our own. */
export const oneLanguage = {
  name: 'one language',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /locales\/index\.js$/ }, ({ importer, resolveDir }) =>
      /[/\\]zod[/\\]/.test(importer) ? { path: resolveDir, namespace: 'one language' } : undefined,
    );
    onLoad({ filter: /.*/, namespace: 'one language' }, ({ path }) => ({
      contents: `export { default as en } from '../locales/en.js';`,
      resolveDir: path,
    }));
  },
};

const SHARED = "globalThis[Symbol.for('mendwise.problem')]";

/** The two bundles must mean the same class when they speak of a ProblemError. */
export const shareProblems = (side) => ({
  name: 'share problems',
  setup({ onLoad }) {
    onLoad({ filter: /src[/\\]problems[/\\]problem\.ts$/ }, async ({ path }) => ({
      loader: 'ts',
      contents:
        side === 'front'
          ? `${await readFile(path, 'utf8')}\n${SHARED} = { ProblemError };`
          : `export const { ProblemError } = ${SHARED};`,
    }));
  },
});

const RUN = /import\('\.\.\/run\/([\w-]+)\.ts'\)/g;

/** What scripts ask for over and over starts sooner from a bundle with no more in it than that takes. */
export const bundleOf = (path) => (path === 'cli/run/decide-quick' ? 'quick' : 'program');

/** In the front bundle, the work of a command is asked of the bundle it lies in. */
export const runElsewhere = {
  name: 'run elsewhere',
  setup({ onLoad }) {
    onLoad({ filter: /src[/\\]cli[/\\]commands[/\\][\w-]+\.ts$/ }, async ({ path }) => ({
      loader: 'ts',
      contents: (await readFile(path, 'utf8')).replace(RUN, (_, name) => {
        const run = `cli/run/${name}`;
        return elsewhere(bundleOf(run), run);
      }),
    }));
  },
};

/** The bundle of readers holds what the quick answer needs on a first look alone: YAML, zod, and all that is built on them. */
export const READERS = 'readers';

/** Whatever the quick bundle asks for late is asked of the bundle of readers; `asked` gathers what that must hold. */
export const readElsewhere = (asked) => ({
  name: 'read elsewhere',
  setup({ onLoad }) {
    onLoad({ filter: /src[/\\].*\.ts$/ }, async ({ path }) => ({
      loader: 'ts',
      contents: (await readFile(path, 'utf8')).replace(/\bimport\('(\.[^']+)\.ts'\)/g, (_, name) => {
        const wanted = relative('src', resolve(dirname(path), name)).replaceAll('\\', '/');
        asked.add(wanted);
        return elsewhere(READERS, wanted);
      }),
    }));
  },
});

const elsewhere = (bundle, path) => `globalThis.__mendwiseRun('${bundle}', '${path}')`;

/** Paths below src of the files in src/cli/run that commands open. */
export const doorPaths = async (commandFiles) => {
  const texts = await Promise.all(commandFiles.map((path) => readFile(path, 'utf8')));
  const names = texts.flatMap((text) => [...text.matchAll(RUN)].map(([, name]) => name));
  return [...new Set(names)].sort().map((name) => `cli/run/${name}`);
};

/** The entry of a bundle that is asked for files of ours: one door for each of these paths below src. */
export const doors = (paths) => paths.map(door).join('\n');

const door = (path, number) =>
  `const door${number} = () => import('./src/${path}.ts');\nexport { door${number} as '${path}' };`;

/** A library of numbers brings one for messages to its developers, which nobody here reads. */
export const withoutDebug = {
  name: 'without debug',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^debug$/ }, () => ({ path: 'silent', namespace: 'without debug' }));
    onLoad({ filter: /.*/, namespace: 'without debug' }, () => ({
      contents: 'module.exports = () => () => undefined;',
    }));
  },
};

/** The library for command lines brings Node's child processes for programs that we have none of: loaded if ever asked for. */
export const childProcessLate = {
  name: 'child process late',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      /[/\\]commander[/\\]/.test(importer) ? { path: 'late', namespace: 'child process late' } : undefined,
    );
    onLoad({ filter: /.*/, namespace: 'child process late' }, () => ({
      contents: `exports.spawn = (...given) => require('node:child_process').spawn(...given);`,
    }));
  },
};
