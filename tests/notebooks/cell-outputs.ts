import { tidyOutputs } from '../../notebooks/notebook-file.mjs';
import type { CellRun } from './tslab-kernel.js';

/** What a notebook would store of a run of one cell. */
export function cellOutputs(run: CellRun): unknown[] {
  return tidyOutputs(
    run.messages
      .filter(({ type }) => type === 'stream' || type === 'display_data')
      .map(({ type, content }) => ({ ...content, output_type: type })),
  );
}
