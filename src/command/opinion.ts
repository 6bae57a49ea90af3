import { join } from 'node:path';
import type { Further } from '../report/render-further.js';
import { terminalText } from './terminal-text.js';

/** What reading the folder and judging it take of the work, roughly: a long log takes longest. */
const reading = 0.4;
const judging = 0.5;

/** What is written beside the three files. */
interface Asked extends Further {
  /** The trial and the opinion as CSV. */
  readonly tables: boolean;
}

/** Reads, judges and writes, with a progress bar on a terminal; what is wrong with the input is said on standard error. */
export async function giveOpinion(folder: string, out: string, all: boolean, further: Asked): Promise<number> {
  const { checkOutputFolder, OutputFolderError } = await import('../report/write-opinion.js');
  const say = (text: string) => process.stderr.write(`${terminalText(text)}\n`);
  try {
    // Not after minutes of work.
    await checkOutputFolder(out, further.tables);
  } catch (error) {
    if (!(error instanceof OutputFolderError)) throw error;
    say(`fairwall: ${error.message}`);
    return 2;
  }
  const drawing = (await import('../charts/drawing-thread.js')).startDrawingThread();
  const [
    { progressBar },
    { rowsOfLog },
    { problemText },
    { readingNote },
    { isTrialFolderError },
    { readTrial, SensorLogEngineError },
    { formOpinion },
    { besideOf },
    { PaperError, renderOpinion, summaryInWords, writeOpinion },
  ] = await Promise.all([
    import('./progress-bar.js'),
    import('./rows-of-log.js'),
    import('./problem-text.js'),
    import('./reading-note.js'),
    import('../trial/index.js'),
    import('../records/index.js'),
    import('../opinion/index.js'),
    import('./beside-of.js'),
    import('../report/index.js'),
  ]);
  const bar = progressBar(process.stderr);
  try {
    const rows = await rowsOfLog(folder);
    const trial = await readTrial(folder, {
      onProgress: (read) => bar.show(`${read} rows of the sensor log`, (reading * read) / Math.max(read, rows ?? 0)),
    });
    const onProgress = (share: number) => bar.show('judging', reading + judging * share);
    const opinion = formOpinion(trial, { onProgress });
    bar.show('writing the report', reading + judging);
    const beside = besideOf(trial, opinion);
    const rendered = await renderOpinion(opinion, beside, drawing.draw);
    const isMore = further.pdf || further.word || further.figures;
    const more = isMore
      ? await (await import('../report/render-further.js')).renderFurther(opinion, rendered, further, beside)
      : {};
    const csv = further.tables ? { tables: (await import('../tables/index.js')).tablesCsv(trial, opinion) } : {};
    await writeOpinion(rendered, out, { ...more, ...csv });
    bar.end();
    const note = trial.source.ledger && readingNote(trial.source.ledger);
    if (note !== undefined) say(note);
    const also = [
      ...(further.pdf ? ['.pdf'] : []),
      ...(further.word ? ['.docx'] : []),
      ...(further.figures ? ['opinion-figures/'] : []),
      ...(further.tables ? ['tables/'] : []),
    ];
    const kinds = [['.md', '.json', ...also].slice(0, -1).join(', '), ['.json', ...also].at(-1)].join(' and ');
    const files = `Report:    ${join(out, 'opinion.html')}, the same as ${kinds}\n`;
    process.stdout.write(terminalText(`${summaryInWords(opinion)}${files}`));
    return 0;
  } catch (error) {
    bar.end();
    if (isTrialFolderError(error)) say(problemText(error.problems, all));
    else if (error instanceof OutputFolderError || error instanceof SensorLogEngineError || error instanceof PaperError)
      say(`fairwall: ${error.message}`);
    else throw error;
    return 2;
  } finally {
    drawing.end();
  }
}
