import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/helpers/no-ambient-randomness.ts', 'tests/helpers/property-seed.ts'],
    // Left to itself the runner keeps one of two cores idle.
    maxWorkers: 2,
    testTimeout: 20_000,
  },
});
