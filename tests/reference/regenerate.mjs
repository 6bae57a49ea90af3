// Makes every reference value again with R and compares it with what is committed beside its script.
//
//   npm run reference               all of tests/reference
//   npm run reference -- FOLDER…    only the scripts below these folders
//
// Exit 0: everything came out as committed. 1: something differs. 2: R or one of its packages is missing.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, resolve } from 'node:path';

/** Linear algebra libraries differ in the last digits; more than this is another answer. */
const RELATIVE_TOLERANCE = 1e-9;
const MOST_LINES = 8;

const roots = process.argv.length > 2 ? process.argv.slice(2).map((folder) => resolve(folder)) : [import.meta.dirname];
const scripts = roots.flatMap(scriptsBelow).sort();
if (scripts.length === 0) stop('no generate.R below the folders given');
if (spawnSync('Rscript', ['--version']).error) stop('Rscript is not here: install R (on Debian: apt-get install r-base-core)');

const outcomes = scripts.map(check);
process.exitCode = outcomes.includes('missing') ? 2 : outcomes.includes('differs') ? 1 : 0;

function scriptsBelow(root) {
  const files = readdirSync(root, { recursive: true, encoding: 'utf8' });
  return files.filter((file) => /(^|[\\/])generate\.R$/.test(file)).map((file) => join(root, file));
}

/** Runs one script into a folder of its own and says in a line, or a few, how its files compare. */
function check(script) {
  const committed = dirname(script);
  const topic = relative(import.meta.dirname, committed) || committed;
  const made = mkdtempSync(join(tmpdir(), 'reference-'));
  try {
    const started = performance.now();
    const run = spawnSync('Rscript', [script, made], { encoding: 'utf8', maxBuffer: 1 << 26 });
    const seconds = ((performance.now() - started) / 1000).toFixed(1);
    const absent = missingPackage(run.stderr);
    if (absent !== undefined) {
      const how = absent.unpacked
        ? `apt-get source ${absent.debian}, unpacked in usr/src of the folder named by DEBIAN_ROOT, or in /usr/src`
        : `apt-get install ${absent.debian}`;
      say(`${topic}: ${absent.what} is not here (on Debian: ${how})`);
      return 'missing';
    }
    if (run.status !== 0) return differs(topic, [`the script failed: ${run.stderr.trim().split('\n').slice(-3).join(' | ')}`]);
    const { lines, files, notes } = compareFolders(committed, made);
    if (lines.length > 0) return differs(topic, lines);
    say(`${topic}: ${files} ${files === 1 ? 'file' : 'files'} as committed (${seconds} s)`);
    for (const note of notes) say(`  ${note}`);
    return 'same';
  } finally {
    rmSync(made, { recursive: true });
  }
}

/** A package of R that a script loads, or data of a Debian package that it asks for in so many words. */
function missingPackage(complaint) {
  const ofR = /there is no package called .(\w[\w.]*)/.exec(complaint)?.[1];
  if (ofR !== undefined) return { what: `R's package ${ofR}`, debian: `r-cran-${ofR.toLowerCase()}` };
  const ofSource = /needs Debian's source package ([a-z0-9.+-]+)/.exec(complaint)?.[1];
  if (ofSource !== undefined) {
    return { what: `the source of ${ofSource}`, debian: ofSource, unpacked: true };
  }
  const ofDebian = /needs Debian's package ([a-z0-9.+-]+)/.exec(complaint)?.[1];
  return ofDebian === undefined ? undefined : { what: `the data of ${ofDebian}`, debian: ofDebian };
}

function differs(topic, lines) {
  say(`${topic}: DIFFERS`);
  for (const line of lines.slice(0, MOST_LINES)) say(`  ${line}`);
  if (lines.length > MOST_LINES) say(`  and ${lines.length - MOST_LINES} more`);
  return 'differs';
}

function compareFolders(committed, made) {
  const before = jsonFiles(committed);
  const after = jsonFiles(made);
  const lines = [
    ...before.filter((file) => !after.includes(file)).map((file) => `${file} is committed, but the script does not make it`),
    ...after.filter((file) => !before.includes(file)).map((file) => `${file} is made, but not committed`),
  ];
  if (after.length === 0) lines.push('the script makes no JSON file');
  const notes = [];
  for (const file of before.filter((name) => after.includes(name))) {
    const [old, fresh] = [committed, made].map((folder) => JSON.parse(readFileSync(join(folder, file), 'utf8')));
    // Another version is worth a line; it is an error only if it gives other numbers.
    if (old.tool !== fresh.tool) notes.push(`${file}: committed with ${old.tool}, here ${fresh.tool}`);
    lines.push(...differences({ ...old, tool: '' }, { ...fresh, tool: '' }, file));
  }
  return { lines, files: before.length, notes };
}

function jsonFiles(folder) {
  return readdirSync(folder).filter((file) => file.endsWith('.json')).sort();
}

/** Where two JSON values differ, as lines. */
function differences(old, fresh, path) {
  if (typeof old === 'number' && typeof fresh === 'number') {
    const size = Math.max(Math.abs(old), Math.abs(fresh));
    return Math.abs(old - fresh) <= RELATIVE_TOLERANCE * size ? [] : [`${path}: committed ${old}, made ${fresh}`];
  }
  if (isObject(old) && isObject(fresh) && Array.isArray(old) === Array.isArray(fresh)) {
    const keys = [...new Set([...Object.keys(old), ...Object.keys(fresh)])];
    return keys.flatMap((key) => differences(old[key], fresh[key], `${path}/${key}`));
  }
  return Object.is(old, fresh) ? [] : [`${path}: committed ${shown(old)}, made ${shown(fresh)}`];
}

function isObject(value) {
  return typeof value === 'object' && value !== null;
}

function shown(value) {
  return value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 60);
}

function say(line) {
  process.stdout.write(`${line}\n`);
}

function stop(reason) {
  process.stderr.write(`reference: ${reason}\n`);
  process.exit(2);
}
