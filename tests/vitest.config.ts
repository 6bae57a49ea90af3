import { defineConfig } from 'vitest/config';
import { filesThatSweep } from './helpers/files-that-sweep.js';
import { LongestFirst } from './helpers/longest-first.js';
import { isWholeSweep } from './helpers/sweep.js';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    // `npm test` has run all the others.
    include: isWholeSweep ? filesThatSweep() : ['tests/**/*.test.ts'],
    globalSetup: ['tests/helpers/run-folder.ts'],
    setupFiles: ['tests/helpers/no-ambient-randomness.ts', 'tests/helpers/property-seed.ts'],
    // Left to itself the runner keeps one of two cores idle.
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    // Files share their loaded modules: loading them anew for each file took as long as running the tests.
    isolate: false,
    // Opinions and simulations leave much behind: with room for it, it is gone before anybody looks.
    execArgv: ['--min-semi-space-size=16', '--max-semi-space-size=64', ...patience()],
    // Compiled files are kept, by what is in them.
    experimental: { fsModuleCache: true },
    testTimeout: 20_000,
    hookTimeout: 60_000,
  },
});

/**
 * Most functions run for a moment in a few tests: to make machine code of them some five times later than the engine would saves a seventh
 * of the time. Later engines have no such number.
 */
function patience(): string[] {
  return Number(process.versions.node.split('.')[0]) < 22 ? ['--interrupt-budget=600000'] : [];
}
