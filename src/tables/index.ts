// Trials and opinions as flat records, and records as tables to look at. `fairwall/tables` gives them as tables of arquero too.

export type { Cell, Row, Rows } from './row.js';
export { type RowsOfOpinion, rowsOfOpinion } from './rows-of-opinion.js';
export { type RowsOfTrial, rowsOfTrial } from './rows-of-trial.js';
export type { ShownOptions, ShownRows } from './shown-cells.js';
export { tableCsv } from './table-csv.js';
export { tableHtml } from './table-html.js';
export { tableText } from './table-text.js';
export { tablesCsv } from './tables-csv.js';
