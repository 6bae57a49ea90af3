#!/usr/bin/env node
import { join } from 'node:path';
import { parseArgs } from 'node:util';

// Everything else is loaded where it is needed: whoever asks for help does not wait for a database or for charts.

/** Problems printed before the rest are only counted. */
const mostLines = 20;

for (const stream of [process.stdout, process.stderr]) stream.on('error', ignoreClosedPipe);

main(process.argv.slice(2)).then(
  (status) => {
    process.exitCode = status;
  },
  (error: unknown) => {
    process.exitCode = 1;
    process.stderr.write(`fairwall: a fault of its own, not of the trial folder; nothing was written\n`);
    throw error;
  },
);

async function main(words: readonly string[]): Promise<number> {
  const { introduction, unknownCommand, usage } = await import('./command/help.js');
  const refused = (reason: string) => {
    process.stderr.write(`fairwall: ${reason}\n\n${usage}`);
    return 2;
  };
  const options = parsed(words);
  if (typeof options === 'string') return refused(options);
  const { values, positionals } = options;
  const [command, folder, ...rest] = positionals;
  if (values.help === true || command === 'help') {
    process.stdout.write(introduction);
    return 0;
  }
  if (values.version === true) {
    const { packageVersion } = await import('./opinion/version.js');
    process.stdout.write(`${packageVersion()}\n`);
    return 0;
  }
  if (words.length === 0) {
    process.stderr.write(introduction);
    return 2;
  }
  if (command !== undefined && command !== 'opinion') return refused(unknownCommand(command));
  if (command === undefined || folder === undefined || folder === '' || rest.length > 0 || values.out === undefined)
    return refused('expected: opinion TRIAL-FOLDER --out FOLDER');
  // A variable that is not set must not spread three files over the folder where somebody happens to be.
  if (values.out === '') return refused('--out names no folder');
  return giveOpinion(folder, values.out, values.all === true);
}

function parsed(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      allowPositionals: true,
      options: {
        out: { type: 'string' },
        all: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
        version: { type: 'boolean', short: 'v' },
      },
    });
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** What reading the folder and judging it take of the work, roughly: a long log takes longest. */
const reading = 0.4;
const judging = 0.5;

/** Reads, judges and writes, with a bar for whoever waits; what is wrong with the input is said on standard error. */
async function giveOpinion(folder: string, out: string, all: boolean): Promise<number> {
  const [{ checkOutputFolder, OutputFolderError }, { terminalText }] = await Promise.all([
    import('./opinion/write-opinion.js'),
    import('./command/terminal-text.js'),
  ]);
  const say = (text: string) => process.stderr.write(`${terminalText(text)}\n`);
  try {
    // Not after minutes of work.
    await checkOutputFolder(out);
  } catch (error) {
    if (!(error instanceof OutputFolderError)) throw error;
    say(`fairwall: ${error.message}`);
    return 2;
  }
  const [{ progressBar }, { rowsOfLog }, { problemLines }, { readingNote }, fairwall] = await Promise.all([
    import('./command/progress-bar.js'),
    import('./command/rows-of-log.js'),
    import('./command/problem-lines.js'),
    import('./command/reading-note.js'),
    import('./index.js'),
  ]);
  const bar = progressBar(process.stderr);
  try {
    const rows = await rowsOfLog(folder);
    const trial = await fairwall.readTrial(folder, {
      onProgress: (read) => bar.show(`${read} rows of the sensor log`, (reading * read) / Math.max(read, rows ?? 0)),
    });
    const onProgress = (share: number) => bar.show('judging', reading + judging * share);
    const opinion = fairwall.formOpinion(trial, { onProgress });
    bar.show('writing the report', reading + judging);
    await fairwall.writeOpinion(await fairwall.renderOpinion(opinion), out);
    bar.end();
    const note = trial.source.ledger && readingNote(trial.source.ledger);
    if (note !== undefined) say(note);
    const files = `Report:    ${join(out, 'opinion.html')}, the same as .md and .json\n`;
    process.stdout.write(terminalText(`${fairwall.summaryInWords(opinion)}${files}`));
    return 0;
  } catch (error) {
    bar.end();
    if (fairwall.isTrialFolderError(error)) {
      const lines = all ? error.problems.map(fairwall.describeProblem) : problemLines(error.problems);
      const shown = all ? lines : lines.slice(0, mostLines);
      const more = lines.length - shown.length;
      say([...shown, ...(more > 0 ? [`and ${more} more problems; --all prints every row`] : [])].join('\n'));
      return 2;
    }
    if (error instanceof OutputFolderError || error instanceof fairwall.SensorLogEngineError) {
      say(`fairwall: ${error.message}`);
      return 2;
    }
    throw error;
  }
}

/** Whoever has read enough closes the pipe (`| head`), and a full disk may hold the opinion and not the words about it. */
function ignoreClosedPipe(error: Error & { readonly code?: string }): void {
  if (error.code !== 'EPIPE') process.stderr.write(`fairwall: its words cannot be printed (${error.code})\n`);
}
