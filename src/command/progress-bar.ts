/** Where the bar is drawn: standard error, or a stand-in. */
export interface BarStream {
  readonly isTTY?: boolean;
  readonly write: (text: string) => unknown;
}

export interface ProgressBar {
  /** How much of what is being done is done, from 0 to 1. */
  readonly show: (what: string, share: number) => void;
  /** Takes the bar away, where one was drawn. */
  readonly end: () => void;
}

const width = 30;
/** Work that takes less shows nothing. */
const patience_ms = 2000;
/** Between two drawings. */
const pause_ms = 100;

/**
 * A progress bar: drawn once two seconds have passed, and only on a terminal, so that nothing of it ends up in a file or a
 * pipe.
 *
 * @param now the time in milliseconds
 * @example progressBar(process.stderr).show('judging', 0.4)
 */
export function progressBar(stream: BarStream, now: () => number = () => performance.now()): ProgressBar {
  const began = now();
  let drawnAt: number | undefined;
  return {
    show: (what, share) => {
      const time = now();
      if (stream.isTTY !== true || time - began < patience_ms) return;
      if (drawnAt !== undefined && time - drawnAt < pause_ms) return;
      drawnAt = time;
      const done = Math.round(width * Math.min(1, Math.max(0, share)));
      stream.write(`\r\u001b[K[${'#'.repeat(done)}${'-'.repeat(width - done)}] ${what}`);
    },
    end: () => {
      if (drawnAt !== undefined) stream.write('\r\u001b[K');
    },
  };
}
