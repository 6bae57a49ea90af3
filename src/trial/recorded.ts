/** Where a record stood: the file and the row as a spreadsheet counts it (the header is row 1). */
export interface RowOrigin {
  readonly file: string;
  readonly row: number;
}

/** A value as it was written down. A value below the detection limit is never turned into a number; a missing one stays missing. */
export type Recorded =
  | { readonly kind: 'measured'; readonly value: number }
  | { readonly kind: 'below-detection'; readonly limit: number }
  | { readonly kind: 'missing' };
