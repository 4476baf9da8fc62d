import { defineConfig } from 'vitest/config';

/** Where CI wants the counts; a person reads the ordinary report. */
const report = process.env.MENDWISE_TEST_REPORT;

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/scenarios/build.ts'],
    reporters: report === undefined ? ['default'] : ['default', ['json', { outputFile: report }]],
    setupFiles: ['tests/setup.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    coverage: { provider: 'v8', include: ['src/**'] },
  },
});
