import { checkDocument } from '../checking/report/check-document.js';
import { toText } from '../checking/report/to-text.js';
import { writeCheck } from '../checking/write-check.js';
import { checkTrial, SensorLogEngineError } from '../records/index.js';
import { OutputFolderError } from '../report/write-opinion.js';
import { toHtml } from '../report/writers/to-html.js';
import { problemText } from './problem-text.js';
import { progressBar } from './progress-bar.js';
import { readingNote } from './reading-note.js';
import { rowsOfLog } from './rows-of-log.js';
import { terminalText } from './terminal-text.js';

/** Says what was understood of a folder and what is missing; with `out` on a page as well. */
export async function checkFolder(folder: string, out: string | undefined, all: boolean): Promise<number> {
  const say = (text: string) => process.stderr.write(`${terminalText(text)}\n`);
  const bar = progressBar(process.stderr);
  try {
    const rows = await rowsOfLog(folder);
    const check = await checkTrial(folder, {
      onProgress: (read) => bar.show(`${read} rows of the sensor log`, read / Math.max(read, rows ?? 0)),
    });
    bar.end();
    if (check.kind === 'problems') {
      say(problemText(check.problems, all));
      // A folder that is a trial has it on its page.
      const note = readingNote(check.ledger);
      if (note !== undefined) say(note);
      return 2;
    }
    process.stdout.write(terminalText(toText(checkDocument(check.trial, 'text'))));
    if (out === undefined) return 0;
    const path = await writeCheck(await toHtml(checkDocument(check.trial, 'drawn')), out);
    process.stdout.write(terminalText(`\nPage:      ${path}\n`));
    return 0;
  } catch (error) {
    bar.end();
    if (!(error instanceof OutputFolderError || error instanceof SensorLogEngineError)) throw error;
    say(`fairwall: ${error.message}`);
    return 2;
  }
}
