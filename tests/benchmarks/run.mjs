// Times our functions, beside R's on the same data and against limits of their own:  npm run benchmark [NAME…]
//
// A benchmark is NAME.mjs in this folder, with NAME.R where R does the same work (other scripts begin with an underscore).
//   NAME.mjs exports `title`, `cases`, `prepare(folder)` that writes the data of all cases, and `load(name, folder)` that reads the data of one case
//            and returns the function to time. A case is { name, label } with `atLeast`, how many times as fast as R, or `mostSeconds`;
//            mostMegabytes where 200 are too few; and `command(folder)`, the words after `node`, where a whole command is timed instead.
//            Cases with `mostTimes` are commands too, timed in turn with `node -e 0`, as multiples of it: the least of seven runs each, as other work on
//            the machine only ever adds.
//   NAME.R   is called with the folder, the name of a case and a number of repeats, and prints one line of JSON:
//            { "seconds": [one for each repeat], "megabytes": peak memory of the process }
// Reading the data is not timed on either side, unless reading is the work. "warm" is the median of repeated calls in one process, "cold" the median time of whole
// processes that start, load the library, read the data and call once. Targets hold for "warm", of a command for "cold".
//
// Needs `npm run build`. R's columns are left out where R or one of its packages is not here: clubSandwich and jsonlite (cluster-robust), lme4 and pbkrtest
// (mixed-models), boot (resampling), data.table (sensor-log).
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { basename, join } from 'node:path';

const here = import.meta.dirname;
const coldRuns = 3;
const runsInTurn = 7;

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
  const [besideBare, others] = [cases.filter(isMultiple), cases.filter((one) => !isMultiple(one))];
  if (others.length > 0) say(row(['', 'ours warm', "R's warm", 'ratio', 'ours cold', "R's cold", 'ratio', 'ours MB', "R's MB", 'target']));
  try {
    await prepare(folder);
    for (const one of others) runCase(name, one, folder);
    if (besideBare.length > 0) runInTurn(besideBare, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function runCase(name, one, folder) {
  const { label, atLeast, mostSeconds, repeats = 25, repeatsOfR = 5, mostMegabytes = 200 } = one;
  const mine = one.command
    ? timedWhole(process.execPath, ['--import', join(here, '_peak.mjs'), ...one.command(folder)])
    : timed(process.execPath, [join(here, '_measure.mjs'), join(here, `${name}.mjs`), folder, one.name], repeats);
  const script = join(here, `${name}.R`);
  const other = hasR && existsSync(script) ? timedInR(['--vanilla', script, folder, one.name], repeatsOfR) : {};
  const failed =
    other.warm / mine.warm < atLeast || (mine.warm ?? mine.cold) > mostSeconds || mine.megabytes > mostMegabytes;
  if (failed) missed += 1;
  const cells = [
    ...[mine.warm, other.warm].map(time),
    ratio(other.warm, mine.warm),
    ...[mine.cold, other.cold].map(time),
    ratio(other.cold, mine.cold),
    ...[mine.megabytes, other.megabytes].map((value) => value?.toFixed(0) ?? '–'),
    atLeast ? `${atLeast}×` : time(mostSeconds),
  ];
  say(`${row([label, ...cells])}${failed ? '  MISSED' : ''}`);
  if (other.lacking) say(`  R's columns are missing: its package ${other.lacking} is not installed`);
}

function isMultiple({ mostTimes }) {
  return mostTimes !== undefined;
}

/** Whole commands in turn with a bare start, so that a busy minute falls on all alike. */
function runInTurn(cases, folder) {
  const commands = [['-e', '0'], ...cases.map(({ command }) => command(folder))];
  const rounds = Array.from({ length: runsInTurn }, () => commands.map(secondsOf));
  const [bare, ...ours] = commands.map((_, at) => Math.min(...rounds.map((round) => round[at])));
  say(row(['', 'least', 'multiple', 'target']));
  say(row(['node -e 0', time(bare)]));
  for (const [at, { label, mostTimes }] of cases.entries()) {
    const failed = ours[at] / bare >= mostTimes;
    if (failed) missed += 1;
    say(`${row([label, time(ours[at]), ratio(ours[at], bare), `under ${mostTimes}×`])}${failed ? '  MISSED' : ''}`);
  }
}

function secondsOf(args) {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`node ${args.join(' ')} failed:\n${stderr}`);
  return (performance.now() - start) / 1000;
}

/** Medians: of the repeats in one process, and of whole processes that do the work once. */
function timed(program, args, repeats) {
  const { seconds, megabytes } = call(program, [...args, String(repeats)]);
  return { ...timedWhole(program, [...args, '1']), warm: median(seconds), megabytes };
}

function timedWhole(program, args) {
  const runs = Array.from({ length: coldRuns }, () => {
    const start = performance.now();
    const { megabytes } = call(program, args);
    return { seconds: (performance.now() - start) / 1000, megabytes };
  });
  return { cold: median(runs.map(({ seconds }) => seconds)), megabytes: median(runs.map(({ megabytes }) => megabytes)) };
}

/** R's times, or the package that R lacks for them. */
function timedInR(args, repeats) {
  try {
    return timed('Rscript', args, repeats);
  } catch (error) {
    const lacking = /there is no package called .([\w.]*\w)/.exec(error.message)?.[1];
    if (lacking === undefined) throw error;
    return { lacking };
  }
}

function call(program, args) {
  // In English, so that R's complaint of a missing package is recognised.
  const env = { ...process.env, LANGUAGE: 'en' };
  const { status, stdout, stderr } = spawnSync(program, args, { encoding: 'utf8', env });
  if (status !== 0) throw new Error(`${program} ${args.join(' ')} failed:\n${stderr}`);
  return JSON.parse(stdout.trim().split('\n').at(-1));
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

function ratio(theirs, ours) {
  return theirs && ours ? `${(theirs / ours).toFixed(1)}×` : '–';
}

function time(seconds) {
  if (seconds === undefined) return '–';
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
