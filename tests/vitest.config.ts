import { defineConfig } from 'vitest/config';
import { filesThatSweep } from './helpers/files-that-sweep.js';
import { LongestFirst } from './helpers/longest-first.js';
import { patientEngine } from './helpers/patient-engine.js';
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
    execArgv: [...patientEngine],
    // Compiled files are kept, by what is in them.
    experimental: { fsModuleCache: true },
    testTimeout: 20_000,
    hookTimeout: 60_000,
  },
});
