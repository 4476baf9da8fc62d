import { readFile } from 'node:fs/promises';

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
export const bundleOf = (name) => (name === 'decide-quick' ? 'quick' : 'program');

/** In the front bundle, the work of a command is asked of the bundle it lies in. */
export const runElsewhere = {
  name: 'run elsewhere',
  setup({ onLoad }) {
    onLoad({ filter: /src[/\\]cli[/\\]commands[/\\][\w-]+\.ts$/ }, async ({ path }) => ({
      loader: 'ts',
      contents: (await readFile(path, 'utf8')).replace(
        RUN,
        (_, name) => `globalThis.__mendwiseRun('${bundleOf(name)}', '${name}')`,
      ),
    }));
  },
};

/** Names of the files in src/cli/run that commands open. */
export const doorNames = async (commandFiles) => {
  const texts = await Promise.all(commandFiles.map((path) => readFile(path, 'utf8')));
  return [...new Set(texts.flatMap((text) => [...text.matchAll(RUN)].map(([, name]) => name)))].sort();
};

/** The entry of a bundle that does work: one door for each of these. */
export const doors = (names) => names.map(door).join('\n');

const door = (name, number) =>
  `const door${number} = () => import('./src/cli/run/${name}.ts');\nexport { door${number} as '${name}' };`;

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
