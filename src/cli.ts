#!/usr/bin/env node
import { runCommand } from './command/run-command.js';

for (const stream of [process.stdout, process.stderr]) stream.on('error', ignoreClosedPipe);

runCommand(process.argv.slice(2)).then(leave, (error: unknown) => {
  process.exitCode = 1;
  process.stderr.write(`fairwall: a fault of its own, not of the trial folder; nothing was written\n`);
  throw error;
});

/** When all is said: for the engine to clear its memory away bit by bit takes a thirtieth of the time of an opinion. */
function leave(status: number): void {
  // A stream that cannot be written to says so after its callbacks.
  const exit = () => setImmediate(() => process.exit(status));
  process.stdout.write('', () => process.stderr.write('', exit));
}

/** Whoever has read enough closes the pipe (`| head`), and a full disk may hold the opinion and not the words about it. */
function ignoreClosedPipe(error: Error & { readonly code?: string }): void {
  if (error.code !== 'EPIPE') process.stderr.write(`fairwall: its words cannot be printed (${error.code})\n`);
}
