import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/scenarios/build.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    coverage: { provider: 'v8', include: ['src/**'] },
  },
});
