// Trials and opinions as flat records. `fairwall/tables` gives them as tables of arquero too.

export type { Cell, Row, Rows } from './row.js';
export { type RowsOfOpinion, rowsOfOpinion } from './rows-of-opinion.js';
export { type RowsOfTrial, rowsOfTrial } from './rows-of-trial.js';
export { tableCsv } from './table-csv.js';
export { tablesCsv } from './tables-csv.js';
