#!/usr/bin/env node
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import {
  describeProblem,
  formOpinion,
  isTrialFolderError,
  OutputFolderError,
  readTrial,
  renderOpinion,
  SensorLogEngineError,
  summaryInWords,
  type Trial,
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
  const opinion = formOpinion(await readShowingProgress(folder));
  await writeOpinion(await renderOpinion(opinion), values.out);
  process.stdout.write(
    `${summaryInWords(opinion)}Report:    ${join(values.out, 'opinion.html')}, the same as .md and .json\n`,
  );
  return 0;
}

/** Says on standard error how far a long sensor log has been read, every two seconds; nothing where it takes less. */
async function readShowingProgress(folder: string): Promise<Trial> {
  const { isTTY } = process.stderr;
  let rows = 0;
  let shown = false;
  const timer = setInterval(() => {
    if (rows === 0) return;
    process.stderr.write(`${isTTY ? '\r' : ''}sensor log: ${rows} rows read${isTTY ? '' : '\n'}`);
    shown = true;
  }, 2000);
  try {
    return await readTrial(folder, {
      onProgress: (read) => {
        rows = read;
      },
    });
  } finally {
    clearInterval(timer);
    if (shown && isTTY) process.stderr.write('\n');
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
