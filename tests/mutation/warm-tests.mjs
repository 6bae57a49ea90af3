import { readdirSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createVitest } from 'vitest/node';

/*
 * A process of its own that keeps the test runner warm: for each message it runs the named test files of a copy of the repository,
 * with the one source file that was changed compiled anew, and says which test failed first.
 */

const [root] = process.argv.slice(2);
const settings = { root, config: join(root, 'tests', 'vitest.config.ts'), watch: false, bail: 1, maxWorkers: 1 };
const quiet = { reporters: [{}], silent: true };
const helper = (name) => import(pathToFileURL(join(root, 'tests', 'helpers', name)).href);
const { compileSources } = await helper('compile-sources.mjs');
const { compiledFolder } = await helper('compiled-folder.mjs');
const vitest = await createVitest('test', { ...settings, ...quiet });

process.on('message', async ({ changed, tests }) => {
  // The first run compiles all there is.
  if (process.env.FAIRWALL_RUN !== undefined && changed.length > 0) await compileSources(changed);
  forgetWhatWasMade();
  const specifications = await vitest.globTestSpecifications(tests.map((test) => join(root, 'tests', test)));
  const { testModules } = await vitest.runTestSpecifications(specifications);
  // The runner also remembers the files of earlier messages.
  const asked = new Set(specifications.map(({ moduleId }) => moduleId));
  const own = testModules.filter(({ moduleId }) => asked.has(moduleId));
  const ran = own.filter((module) => ['passed', 'failed'].includes(module.state())).length;
  process.send({ ran, failed: firstFailure(own) });
});

/** What test files leave each other in a run was made of other sources. */
function forgetWhatWasMade() {
  const folder = process.env.FAIRWALL_RUN;
  if (folder === undefined) return;
  const made = readdirSync(folder).filter((name) => name !== basename(compiledFolder()));
  for (const name of made) rmSync(join(folder, name), { recursive: true });
}

/** Errors outside the tests are none of theirs: on a busy machine the runner has errors of its own. */
function firstFailure(modules) {
  for (const module of modules) {
    for (const test of module.children.allTests('failed')) return test.fullName;
    if (module.state() === 'failed') return 'the sources do not load';
  }
  return undefined;
}

process.send('ready');
