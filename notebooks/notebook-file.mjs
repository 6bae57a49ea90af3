import { readFileSync, writeFileSync } from 'node:fs';

export function readNotebook(file) {
  return JSON.parse(readFileSync(file, 'utf8'));
}

export function writeNotebook(file, notebook) {
  writeFileSync(file, `${JSON.stringify(notebook, null, 1)}\n`);
}

/**
 * The notebook with only what a run in the same state always gives: no times, no ids of a session, one order of keys, and
 * executions counted from 1. Texts are kept as lists of lines, so that a changed line shows as one.
 */
export function tidyNotebook(notebook) {
  let executed = 0;
  const cells = notebook.cells.map((cell, index) => {
    const common = { cell_type: cell.cell_type, id: `cell-${String(index + 1).padStart(2, '0')}`, metadata: {} };
    if (cell.cell_type !== 'code') return { ...common, source: toLines(cell.source) };
    executed += 1;
    return {
      ...common,
      execution_count: executed,
      outputs: tidyOutputs(cell.outputs),
      source: toLines(cell.source),
    };
  });
  return {
    cells,
    metadata: {
      kernelspec: { display_name: 'TypeScript', language: 'typescript', name: 'tslab' },
      language_info: { file_extension: '.ts', mimetype: 'text/typescript', name: 'typescript' },
    },
    nbformat: 4,
    nbformat_minor: 5,
  };
}

/** Outputs in their order, pieces of one stream joined. */
export function tidyOutputs(outputs) {
  const tidy = [];
  for (const output of outputs) {
    const last = tidy.at(-1);
    if (output.output_type !== 'stream') tidy.push(tidyOutput(output));
    else if (last?.output_type === 'stream' && last.name === output.name) {
      last.text = toLines(toText(last.text) + toText(output.text));
    } else tidy.push({ name: output.name, output_type: 'stream', text: toLines(output.text) });
  }
  return tidy;
}

function tidyOutput(output) {
  if (output.output_type !== 'display_data') throw new Error(`an output of the type ${output.output_type}`);
  const data = Object.entries(output.data).map(([type, value]) => [type, toLines(value)]);
  return { data: Object.fromEntries(data), metadata: {}, output_type: 'display_data' };
}

/** A text as the file holds it, in one piece. */
export function toText(source) {
  return Array.isArray(source) ? source.join('') : source;
}

function toLines(source) {
  return toText(source).match(/[^\n]*\n|[^\n]+$/g) ?? [];
}
