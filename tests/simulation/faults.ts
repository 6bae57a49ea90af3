// How often planted faults are found, and how often sound trials are left alone. Writes faults.json and faults.md beside this
// script. npm run coverage:faults, on two cores; a number after `--` is that of trials.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { faultsTable } from './fault-trials/faults-table.js';
import { countOutcomes, judgeNumber, type NumberedOutcome } from './fault-trials/judge-trials.js';

const TRIALS = 500;
const WORKERS = 2;

interface Part {
  readonly worker: number;
  readonly trials: number;
}

interface Message {
  readonly number: number;
  readonly outcome: NumberedOutcome;
}

if (isMainThread) await runAll(Number(process.argv[2] ?? TRIALS));
else runPart(workerData as Part);

/** Every so many-th number: both cores then have as much to do. */
function runPart({ worker, trials }: Part): void {
  for (let number = worker; number < trials; number += WORKERS) {
    const message: Message = { number, outcome: judgeNumber(number) };
    parentPort?.postMessage(message);
  }
}

async function runAll(trials: number): Promise<void> {
  const outcomes: NumberedOutcome[] = [];
  let done = 0;
  const run = (worker: number) =>
    new Promise<void>((resolve, reject) => {
      const part: Part = { worker, trials };
      const thread = new Worker(new URL(import.meta.url), { workerData: part });
      thread.on('message', ({ number, outcome }: Message) => {
        outcomes[number] = outcome;
        done += 1;
        if (process.stderr.isTTY) process.stderr.write(`\r${done} of ${trials} numbers`);
      });
      thread.on('error', reject);
      thread.on('exit', () => resolve());
    });
  await Promise.all(Array.from({ length: WORKERS }, (_, worker) => run(worker)));
  if (process.stderr.isTTY) process.stderr.write('\n');
  const file = countOutcomes(outcomes);
  const folder = join(process.cwd(), 'tests', 'simulation');
  writeFileSync(join(folder, 'faults.json'), `${JSON.stringify(file, null, 1)}\n`);
  writeFileSync(join(folder, 'faults.md'), faultsTable(file));
  process.stdout.write(faultsTable(file));
}
