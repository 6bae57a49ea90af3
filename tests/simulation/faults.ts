// How often planted faults are found, and how often sound trials are left alone. Writes faults.json and faults.md beside this
// script. npm run coverage:faults, on two cores; a number after `--` is that of trials.
//
// A row of the committed file stays where its first trials come out as they stand there; the others are made anew, and the file is
// written after each handful of rows, so that a run broken off goes on where it was. Without the file everything is made.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { faultsTable } from './fault-trials/faults-table.js';
import {
  type FaultOutcome,
  type FaultRow,
  type FaultsFile,
  FIRST,
  faultRow,
  judgeFault,
  SEED,
  type SoundRow,
  soundJudge,
  soundRow,
  soundRows,
} from './fault-trials/judge-trials.js';
import { faults } from './fault-trials.js';

const TRIALS = 500;
const WORKERS = 2;
/** Rows made before the file is written again. */
const HANDFUL = 10;

/** A row to make: a planted fault, or trials of which nothing is wrong. */
interface Job {
  readonly kind: 'fault' | 'sound';
  /** Its place in the list of faults or of sound rows. */
  readonly at: number;
}

interface Part {
  readonly jobs: readonly Job[];
  /** Numbers of trials: from, up to but not including, and the step between them. */
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

interface Judgement {
  readonly number: number;
  readonly job: Job;
  readonly outcome: FaultOutcome | SoundRow['first'][number];
}

if (isMainThread) await runAll(Number(process.argv[2] ?? TRIALS));
else runPart(workerData as Part);

function runPart({ jobs, from, to, step }: Part): void {
  for (let number = from; number < to; number += step) {
    const judgeSound = soundJudge(number);
    for (const job of jobs) {
      const outcome = outcomeOf(job, number, judgeSound);
      if (outcome !== undefined) parentPort?.postMessage({ number, job, outcome } satisfies Judgement);
    }
  }
}

function outcomeOf(job: Job, number: number, judgeSound: ReturnType<typeof soundJudge>) {
  if (job.kind === 'sound') {
    const base = soundRows[job.at];
    return base && judgeSound({ kind: 'walls', base });
  }
  const fault = faults[job.at];
  return fault && judgeFault(fault, number, judgeSound);
}

async function runAll(trials: number): Promise<void> {
  const folder = join(process.cwd(), 'tests', 'simulation');
  const committed = join(folder, 'faults.json');
  const known: FaultsFile | undefined = existsSync(committed) ? JSON.parse(readFileSync(committed, 'utf8')) : undefined;
  const rows = new Map<string, FaultRow | SoundRow>();
  const jobs: readonly Job[] = [
    ...soundRows.map((_, at): Job => ({ kind: 'sound', at })),
    ...sameBaseTogether().map((at): Job => ({ kind: 'fault', at })),
  ];
  const stale = await staleJobs(jobs, known, trials, rows);
  process.stderr.write(`${rows.size} rows stand, ${stale.length} are made anew\n`);
  for (let start = 0; start < stale.length; start += HANDFUL) {
    for (const [key, row] of await made(stale.slice(start, start + HANDFUL), trials)) rows.set(key, row);
    writeTable(folder, known, rows);
    process.stderr.write(`${Math.min(start + HANDFUL, stale.length)} of ${stale.length}\n`);
  }
}

/** Faults planted in the same sound trials stand together, so that these are judged once a handful. */
function sameBaseTogether(): readonly number[] {
  const bases = faults.map(({ in: base }) => JSON.stringify(base));
  return faults
    .map((_, at) => at)
    .sort((one, other) => bases.indexOf(bases[one] ?? '') - bases.indexOf(bases[other] ?? ''));
}

async function staleJobs(
  jobs: readonly Job[],
  known: FaultsFile | undefined,
  trials: number,
  rows: Map<string, FaultRow | SoundRow>,
): Promise<readonly Job[]> {
  if (known === undefined || known.seed !== SEED) return jobs;
  const begun = await made(jobs, Math.min(FIRST, trials));
  return jobs.filter((job) => {
    const row = knownRow(known, job);
    const again = begun.get(keyOf(job));
    if (row === undefined || row.trials !== trials || JSON.stringify(row.first) !== JSON.stringify(again?.first))
      return true;
    rows.set(keyOf(job), row);
    return false;
  });
}

function knownRow(known: FaultsFile, job: Job): FaultRow | SoundRow | undefined {
  if (job.kind === 'fault') return known.faults.find(({ name }) => name === faults[job.at]?.name);
  const base = soundRows[job.at];
  return known.sound.find(({ design, effect }) => design === base?.design && effect === base.effect);
}

function keyOf({ kind, at }: Job): string {
  return `${kind} ${at}`;
}

async function made(jobs: readonly Job[], trials: number): Promise<ReadonlyMap<string, FaultRow | SoundRow>> {
  const outcomes = new Map(jobs.map((job): [string, Judgement['outcome'][]] => [keyOf(job), []]));
  const run = (worker: number) =>
    new Promise<void>((resolve, reject) => {
      const part: Part = { jobs, from: worker, to: trials, step: WORKERS };
      const thread = new Worker(new URL(import.meta.url), { workerData: part });
      thread.on('message', ({ number, job, outcome }: Judgement) => {
        const own = outcomes.get(keyOf(job));
        if (own !== undefined) own[number] = outcome;
      });
      thread.on('error', reject);
      thread.on('exit', () => resolve());
    });
  await Promise.all(Array.from({ length: WORKERS }, (_, worker) => run(worker)));
  return new Map(jobs.map((job) => [keyOf(job), rowFrom(job, outcomes.get(keyOf(job)) ?? [])]));
}

function rowFrom(job: Job, outcomes: readonly Judgement['outcome'][]): FaultRow | SoundRow {
  if (job.kind === 'fault') return faultRow(faults[job.at]?.name ?? '', outcomes as readonly FaultOutcome[]);
  const base = soundRows[job.at];
  if (base === undefined) throw new RangeError(`there is no sound row ${job.at}`);
  return soundRow(base, outcomes as SoundRow['first']);
}

/** Rows that are still to be made anew stand as they were. */
function writeTable(
  folder: string,
  known: FaultsFile | undefined,
  rows: ReadonlyMap<string, FaultRow | SoundRow>,
): void {
  const rowOf = (job: Job) => rows.get(keyOf(job)) ?? (known && knownRow(known, job));
  const file: FaultsFile = {
    ...{ source: '`npm run coverage:faults`', seed: SEED },
    faults: faults.flatMap((_, at) => (rowOf({ kind: 'fault', at }) as FaultRow | undefined) ?? []),
    sound: soundRows.flatMap((_, at) => (rowOf({ kind: 'sound', at }) as SoundRow | undefined) ?? []),
  };
  writeFileSync(join(folder, 'faults.json'), `${JSON.stringify(file, null, 1)}\n`);
  writeFileSync(join(folder, 'faults.md'), faultsTable(file));
}
