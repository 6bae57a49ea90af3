#!/usr/bin/env node
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { progressBar } from './command/progress-bar.js';
import { rowsOfLog } from './command/rows-of-log.js';
import {
  describeProblem,
  formOpinion,
  isTrialFolderError,
  type Opinion,
  OutputFolderError,
  readTrial,
  renderOpinion,
  SensorLogEngineError,
  summaryInWords,
  writeOpinion,
} from './index.js';

const usage = `Usage: fairwall opinion TRIAL-FOLDER --out FOLDER

Reads the trial in TRIAL-FOLDER and writes opinion.html, opinion.md and opinion.json to FOLDER.
Exit status 0: an opinion was written, whatever it says. 2: the input is wrong, and nothing was written.
`;

/** Problems printed before the rest are only counted. */
const mostProblems = 20;

class UsageError extends Error {
  override readonly name = 'UsageError' as const;
}

main(process.argv.slice(2)).then(
  (status) => {
    process.exitCode = status;
  },
  (error: unknown) => {
    process.exitCode = refuse(error);
  },
);

async function main(words: readonly string[]): Promise<number> {
  const { values, positionals } = parsed(words);
  if (values.help === true) {
    process.stdout.write(usage);
    return 0;
  }
  const [command, folder, ...rest] = positionals;
  if (command !== 'opinion' || folder === undefined || rest.length > 0 || values.out === undefined)
    throw new UsageError('expected: opinion TRIAL-FOLDER --out FOLDER');
  const opinion = await formed(folder, values.out);
  process.stdout.write(
    `${summaryInWords(opinion)}Report:    ${join(values.out, 'opinion.html')}, the same as .md and .json\n`,
  );
  return 0;
}

/** What reading the folder and judging it take of the work, roughly: a long log takes longest. */
const reading = 0.4;
const judging = 0.5;

/** Reads, judges and writes, with a bar for whoever waits. */
async function formed(folder: string, out: string): Promise<Opinion> {
  const bar = progressBar(process.stderr);
  try {
    const rows = await rowsOfLog(folder);
    const trial = await readTrial(folder, {
      onProgress: (read) => bar.show(`${read} rows of the sensor log`, (reading * read) / Math.max(read, rows ?? 0)),
    });
    const opinion = formOpinion(trial, { onProgress: (share) => bar.show('judging', reading + judging * share) });
    bar.show('writing the report', reading + judging);
    await writeOpinion(await renderOpinion(opinion), out);
    return opinion;
  } finally {
    bar.end();
  }
}

function parsed(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { out: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
    });
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : String(error));
  }
}

/** Says on standard error what is wrong with the input, and passes on what is not the input's fault. */
function refuse(error: unknown): number {
  if (isTrialFolderError(error)) {
    const lines = error.problems.slice(0, mostProblems).map(describeProblem);
    const more = error.problems.length - lines.length;
    process.stderr.write([...lines, ...(more > 0 ? [`and ${more} more problems`] : []), ''].join('\n'));
    return 2;
  }
  if (error instanceof UsageError) {
    process.stderr.write(`fairwall: ${error.message}\n\n${usage}`);
    return 2;
  }
  if (error instanceof OutputFolderError || error instanceof SensorLogEngineError) {
    process.stderr.write(`fairwall: ${error.message}\n`);
    return 2;
  }
  throw error;
}
