// Times our functions and R's on the same data, side by side:  npm run benchmark [NAME…]
//
// A benchmark is a pair NAME.mjs and NAME.R in this folder (other scripts begin with an underscore).
//   NAME.mjs exports `title`, `cases` (each { name, label, atLeast }, and mostMegabytes where 200 are too few), `prepare(folder)` that writes the data of all cases,
//            and `load(name, folder)` that reads the data of one case and returns the function to time.
//   NAME.R   is called with the folder, the name of a case and a number of repeats, and prints one line of JSON:
//            { "seconds": [one for each repeat], "megabytes": peak memory of the process }
// Reading the data is not timed on either side, unless reading is the work. "warm" is the median of repeated calls in one process, "cold" the median time of whole
// processes that start, load the library, read the data and call once. Needs `npm run build`; R's column is left out without R.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { basename, join } from 'node:path';

const here = import.meta.dirname;
const coldRuns = 3;

const wanted = process.argv.slice(2);
const names = readdirSync(here)
  .filter((file) => file.endsWith('.mjs') && file !== 'run.mjs' && !file.startsWith('_'))
  .map((file) => basename(file, '.mjs'))
  .filter((name) => wanted.length === 0 || wanted.includes(name));
const hasR = !spawnSync('Rscript', ['--version']).error;

say(`Node.js ${process.version}, ${cpus().length} processors${hasR ? `, ${rVersion()}` : '; R is not here'}`);
let missed = 0;
for (const name of names) await runBenchmark(name);
say(missed === 0 ? '\nEvery target met.' : `\n${missed} target${missed === 1 ? '' : 's'} missed.`);
process.exitCode = missed === 0 ? 0 : 1;

async function runBenchmark(name) {
  const { title, cases, prepare } = await import(join(here, `${name}.mjs`));
  const folder = mkdtempSync(join(tmpdir(), 'benchmark-'));
  say(`\n${title}`);
  say(row(['', 'ours warm', "R's warm", 'ratio', 'ours cold', "R's cold", 'ratio', 'ours MB', "R's MB", 'target']));
  try {
    await prepare(folder);
    for (const one of cases) runCase(name, one, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function runCase(name, { name: key, label, atLeast, repeats = 25, repeatsOfR = 5, mostMegabytes = 200 }, folder) {
  const ours = { program: process.execPath, args: [join(here, '_measure.mjs'), join(here, `${name}.mjs`), folder, key] };
  const theirs = { program: 'Rscript', args: ['--vanilla', join(here, `${name}.R`), folder, key] };
  const [mine, other] = [timed(ours, repeats), hasR ? timed(theirs, repeatsOfR) : undefined];
  const ratio = other && other.warm / mine.warm;
  const failed = (ratio !== undefined && ratio < atLeast) || mine.megabytes > mostMegabytes;
  if (failed) missed += 1;
  const cells = [
    label,
    time(mine.warm),
    other ? time(other.warm) : '–',
    ratio ? `${ratio.toFixed(1)}×` : '–',
    time(mine.cold),
    other ? time(other.cold) : '–',
    other ? `${(other.cold / mine.cold).toFixed(1)}×` : '–',
    mine.megabytes.toFixed(0),
    other ? other.megabytes.toFixed(0) : '–',
    `${atLeast}×`,
  ];
  say(`${row(cells)}${failed ? '  MISSED' : ''}`);
}

/** Medians: of the repeats in one process, and of whole processes that do the work once. */
function timed({ program, args }, repeats) {
  const answer = call(program, [...args, String(repeats)]);
  const cold = Array.from({ length: coldRuns }, () => {
    const start = performance.now();
    call(program, [...args, '1']);
    return (performance.now() - start) / 1000;
  });
  return { warm: median(answer.seconds), cold: median(cold), megabytes: answer.megabytes };
}

function call(program, args) {
  const { status, stdout, stderr } = spawnSync(program, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`${program} ${args.join(' ')} failed:\n${stderr}`);
  return JSON.parse(stdout.trim().split('\n').at(-1));
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

function time(seconds) {
  return seconds < 1 ? `${(seconds * 1000).toPrecision(3)} ms` : `${seconds.toPrecision(3)} s`;
}

function row([label, ...cells]) {
  return label.padEnd(52) + cells.map((cell) => cell.padStart(11)).join('');
}

function rVersion() {
  return spawnSync('Rscript', ['-e', 'cat(R.version.string)'], { encoding: 'utf8' }).stdout;
}

function say(text) {
  process.stdout.write(`${text}\n`);
}
