import { defineConfig } from 'vitest/config';
import { FULL } from './tiers.ts';

/** Where CI wants the counts; a person reads the ordinary report. */
const report = process.env.MENDWISE_TEST_REPORT;

/** In milliseconds. Loops and laws at full length take minutes. */
const PATIENCE = FULL ? 1_500_000 : 120_000;

/** What starts commands, browsers or other processes of its own. */
const PROCESSES = ['tests/{scenarios,reliability,pages,cli}/**/*.test.ts', 'tests/house/checks.test.ts'];

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    reporters: report === undefined ? ['default'] : ['default', ['json', { outputFile: report }]],
    // Left to itself the runner leaves one core idle: half of what a small machine has.
    maxWorkers: '100%',
    coverage: { provider: 'v8', include: ['src/**'] },
    projects: [
      {
        extends: true,
        // A program that knows its build keeps what it has read: each run of the tests has caches of its own.
        define: { __MENDWISE_BUILD__: JSON.stringify('tests') },
        test: {
          name: 'commands',
          include: PROCESSES,
          // A process of its own may go from folder to folder; what it has loaded serves all its files.
          pool: 'forks',
          isolate: false,
          globalSetup: ['tests/scenarios/build.ts'],
          setupFiles: ['tests/setup.ts', 'tests/scenarios/caches.ts'],
          testTimeout: PATIENCE,
          hookTimeout: PATIENCE,
        },
      },
      {
        extends: true,
        test: {
          name: 'rooms',
          include: ['tests/**/*.test.ts'],
          exclude: PROCESSES,
          // The rooms keep no state between tests, so a thread loads them once for all its files.
          pool: 'threads',
          isolate: false,
          setupFiles: ['tests/setup.ts'],
          testTimeout: PATIENCE,
          hookTimeout: PATIENCE,
        },
      },
    ],
  },
});
