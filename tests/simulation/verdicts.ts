// How often each verdict and evidence word comes out when the truth is known. Writes verdicts.json and verdicts.md beside this script, the
// chart verdicts.svg, and the table that opinions quote. npm run coverage:verdicts, on two cores; a number after `--` is that of trials.
//
// Every finished cell is written down at once, and a cell that stands is not made again: a run broken off goes on where it was.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { isMainThread, parentPort, Worker } from 'node:worker_threads';
import {
  type CellDone,
  type CellJob,
  cell,
  cellJobs,
  designOf,
  EVIDENCE_TRIALS,
  type SizeDone,
  type SizeJob,
  size,
  sizeJobs,
  TRIALS,
} from './verdict-rates/rate-cells.js';
import { type VerdictsFile, writeVerdicts } from './verdict-rates/rates-table.js';

type Job = SizeJob | CellJob;
type Done = SizeDone | CellDone;

if (isMainThread) await runAll(Number(process.argv[2] ?? TRIALS));
else parentPort?.on('message', (job: Job) => parentPort?.postMessage(job.kind === 'size' ? size(job) : cell(job)));

async function runAll(trials: number): Promise<void> {
  const folder = join(process.cwd(), 'tests', 'simulation');
  // A short try leaves the committed table alone.
  const path = join(folder, trials === TRIALS ? 'verdicts.json' : 'verdicts-try.json');
  const file: VerdictsFile = existsSync(path)
    ? JSON.parse(readFileSync(path, 'utf8'))
    : { source: '`npm run coverage:verdicts`', sizes: [], cells: [] };
  const sizes = new Map(file.sizes.map((one) => [one.key, one]));
  const cells = new Map(file.cells.map((one) => [one.key, one]));
  const save = (jobs: readonly CellJob[]) => {
    const standing = jobs.flatMap(({ key }) => cells.get(key) ?? []);
    const next: VerdictsFile = { ...file, sizes: [...sizes.values()], cells: standing };
    writeFileSync(path, `${JSON.stringify(next, null, 1)}\n`);
    return next;
  };
  await runJobs(
    sizeJobs().filter(({ key }) => !sizes.has(key)),
    'sizes',
    (done) => {
      if (done.kind === 'size') sizes.set(done.key, done);
    },
  );
  const evidenceTrials = Math.min(EVIDENCE_TRIALS, trials);
  const jobs = cellJobs(sizes, { trials, evidenceTrials });
  save(jobs);
  // The shortest first, so that a run broken off has most designs.
  const costOf = ({ design }: CellJob) => {
    const { treated, untreated, visits } = designOf(design).design;
    return (treated + untreated) * visits;
  };
  const open = jobs.filter(({ key }) => !cells.has(key)).toSorted((one, other) => costOf(one) - costOf(other));
  await runJobs(open, 'cells', (done) => {
    if (done.kind === 'cell') cells.set(done.key, done);
    save(jobs);
  });
  const written = save(jobs);
  if (trials === TRIALS) await writeVerdicts(folder, written);
}

async function runJobs(jobs: readonly Job[], what: string, take: (done: Done) => void): Promise<void> {
  const queue = [...jobs];
  const start = Date.now();
  let finished = 0;
  const report = () => {
    const each_s = (Date.now() - start) / 1000 / Math.max(1, finished);
    const left_min = (each_s * (jobs.length - finished)) / 60;
    process.stderr.write(`${finished} of ${jobs.length} ${what}, about ${left_min.toFixed(1)} minutes left\n`);
  };
  const run = () =>
    new Promise<void>((resolve, reject) => {
      const worker = new Worker(new URL(import.meta.url));
      const next = () => {
        const job = queue.shift();
        if (job === undefined) worker.terminate().then(() => resolve(), reject);
        else worker.postMessage(job);
      };
      worker.on('message', (done: Done) => {
        finished++;
        take(done);
        report();
        next();
      });
      worker.on('error', reject);
      next();
    });
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), Math.max(1, jobs.length)) }, run));
}
