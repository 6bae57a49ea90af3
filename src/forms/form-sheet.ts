/** A sheet of a workbook as plain data, before a library writes it. */
export interface FormSheet {
  readonly name: string;
  readonly columns: readonly FormColumn[];
  readonly rows: readonly (readonly FormCell[])[];
  readonly rules: readonly CellRule[];
}

export interface FormColumn {
  readonly heading: string;
  /** In characters. */
  readonly width: number;
  /** Whether the table cannot do without it. */
  readonly needed: boolean;
  /** `day` shows year, month and day in this order, so that a slip of the hand is seen; `prose` wraps. */
  readonly look?: 'day' | 'prose';
}

/** `look` where a cell is not as its column. */
interface StyledCell {
  readonly value: string | number | Date;
  readonly look: 'day' | 'key';
}

export type FormCell = string | number | Date | StyledCell;

/** A note that is shown beside a selected cell, and the words or names that its list offers. */
export interface CellRule {
  /** From 0. */
  readonly column: number;
  /** As a spreadsheet counts: the heading is row 1. */
  readonly firstRow: number;
  readonly lastRow: number;
  readonly title: string;
  readonly note: string;
  readonly choices?: Choices;
}

/** A word of its own is accepted where only names are offered: `unknown`, or a name that is written down later. */
export type Choices =
  | { readonly kind: 'words'; readonly words: readonly string[] }
  | { readonly kind: 'names'; readonly cells: string };

/** Rows that are ready for filling in: their days show as days, their lists open. */
export const readyRows = 1000;
