import { fork } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { list } from './list.mjs';
import { keyOf, readOutcomes, writeOutcomes } from './outcomes.mjs';

/*
 * Makes one deliberate fault after another in a copy of the sources and runs the tests that should notice.
 *
 *   npm run mutate              those whose outcome is not on record, or which survived
 *   npm run mutate -- --all     all of them
 *   npm run mutate -- drying    those in files whose path holds the word
 *
 * What is known is written after each, so that a run that was stopped goes on where it was.
 */

const repository = join(import.meta.dirname, '..', '..');
const mostSeconds = 120;

const words = process.argv.slice(2);
const outcomes = readOutcomes();
const wanted = list.filter((mutation) => {
  if (mutation.equivalent !== undefined) return false;
  const named = words.filter((word) => !word.startsWith('--'));
  if (named.length > 0 && !named.some((word) => mutation.file.includes(word))) return false;
  return words.includes('--all') || outcomes.get(keyOf(mutation))?.outcome !== 'killed';
});

const copy = mkdtempSync(join(tmpdir(), 'mutated-'));
for (const name of ['src', 'tests', 'datasets', 'notebooks', 'package.json', 'tsconfig.json', 'README.md', 'DEVELOPERS.md'])
  cpSync(join(repository, name), join(copy, name), { recursive: true });
symlinkSync(join(repository, 'node_modules'), join(copy, 'node_modules'));

const changedBack = new Set();
const known = new Set();
let runner;
// Stopped on purpose, it leaves no copy and no process behind.
for (const signal of ['SIGINT', 'SIGTERM'])
  process.on(signal, async () => {
    await stop();
    rmSync(copy, { recursive: true, force: true });
    process.exit(1);
  });
try {
  for (const [at, mutation] of wanted.entries()) {
    const began = Date.now();
    const found = await outcomeOf(mutation);
    outcomes.set(keyOf(mutation), found);
    writeOutcomes(outcomes);
    const seconds = ((Date.now() - began) / 1000).toFixed(1);
    say(`${at + 1}/${wanted.length} ${found.outcome} in ${seconds} s: ${mutation.file}: ${mutation.replace.split('\n').at(-1)}`);
  }
} finally {
  await stop();
  rmSync(copy, { recursive: true, force: true });
}
writeOutcomes(outcomes);

async function outcomeOf({ file, find, replace, tests }) {
  const path = join(copy, file);
  const whole = readFileSync(path, 'utf8');
  if (whole.split(find).length !== 2) throw new Error(`${file} does not hold this once:\n${find}`);
  await passUnchanged(tests);
  writeFileSync(path, whole.replace(find, () => replace));
  try {
    // A machine that stood still for a while is no fault that somebody noticed: twice is.
    const first = await runTests([file], tests);
    const answer = first === 'too slow' ? await runTests([file], tests) : first;
    if (answer === 'too slow') return { outcome: 'killed', by: `took more than ${mostSeconds} s, twice` };
    if (answer.failed !== undefined) return { outcome: 'killed', by: answer.failed };
    if (answer.ran < tests.length) throw new Error(`${file}: not all of these ran: ${tests.join(', ')}`);
    return { outcome: 'survived' };
  } finally {
    writeFileSync(path, whole);
    changedBack.add(file);
  }
}

/** A test that fails anyway would notice everything. */
async function passUnchanged(tests) {
  const fresh = tests.filter((test) => !known.has(test));
  if (fresh.length === 0) return;
  const answer = await runTests([], fresh);
  if (answer === 'too slow' || answer.ran < fresh.length || answer.failed !== undefined)
    throw new Error(`${fresh.join(', ')} must exist and pass on unchanged sources: ${JSON.stringify(answer)}`);
  for (const test of fresh) known.add(test);
}

async function runTests(changed, tests) {
  runner ??= await started();
  runner.send({ changed: [...changed, ...changedBack], tests });
  changedBack.clear();
  const answer = await Promise.race([once(runner, 'message'), pause(mostSeconds * 1000, 'too slow', { ref: false })]);
  if (answer !== 'too slow') return answer[0];
  await stop();
  return answer;
}

async function started() {
  const child = fork(join(import.meta.dirname, 'warm-tests.mjs'), [copy], { cwd: copy, detached: true, stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
  await once(child, 'message');
  return child;
}

/** With the workers that it started. */
async function stop() {
  if (runner === undefined) return;
  const ended = once(runner, 'exit');
  process.kill(-runner.pid, 'SIGKILL');
  await ended;
  runner = undefined;
}

function say(text) {
  process.stdout.write(`${text}\n`);
}
