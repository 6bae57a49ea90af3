/** A table before its header has been looked at: every row of the file, blank ones included, so that rows keep their number. */
export interface Records {
  /** How problems name the table: `walls.csv`, or `trial.xlsx / walls`. */
  readonly place: string;
  /** Absent for the sheet of a workbook. */
  readonly separator?: 'comma' | 'semicolon';
  readonly rows: readonly (readonly string[])[];
}
