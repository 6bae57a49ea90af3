import { defineConfig } from 'vitest/config';
import { filesThatSweep } from './helpers/files-that-sweep.js';
import { LongestFirst } from './helpers/longest-first.js';
import { patientEngine } from './helpers/patient-engine.js';
import { isWholeSweep } from './helpers/sweep.js';

const typescriptLoader = new URL('helpers/typescript-loader.mjs', import.meta.url).href;

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    // `npm test` has run all the others.
    include: isWholeSweep ? filesThatSweep() : ['tests/**/*.test.ts'],
    globalSetup: ['tests/helpers/run-folder.mjs'],
    setupFiles: ['tests/helpers/no-ambient-randomness.ts', 'tests/helpers/property-seed.ts'],
    // Left to itself the runner keeps one of two cores idle.
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    // Files share their loaded modules: loading them anew for each file took as long as running the tests.
    isolate: false,
    // Node.js loads the modules, which run-folder.mjs has compiled.
    execArgv: [...patientEngine, '--enable-source-maps', '--import', typescriptLoader],
    experimental: { viteModuleRunner: false, nodeLoader: false },
    testTimeout: 20_000,
    hookTimeout: 60_000,
  },
});
