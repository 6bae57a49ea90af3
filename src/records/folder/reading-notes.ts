import type { Mended, NotUsed, ReadingLedger, TableRead } from '../../trial/index.js';

/** Collects, while a folder is read, what goes into its ledger. */
export interface ReadingNotes {
  readonly tables: TableRead[];
  readonly notUsed: NotUsed[];
  /** Counts a cell that was mended; of each kind a column the first is shown. */
  mended(cell: Omit<Mended, 'rows'>): void;
  ledger(): ReadingLedger;
}

export function readingNotes(): ReadingNotes {
  const tables: TableRead[] = [];
  const notUsed: NotUsed[] = [];
  const mended = new Map<string, { readonly first: Omit<Mended, 'rows'>; rows: number }>();
  return {
    tables,
    notUsed,
    mended(cell) {
      const key = JSON.stringify([cell.file, cell.column, cell.kind]);
      const known = mended.get(key);
      if (known === undefined) mended.set(key, { first: cell, rows: 1 });
      else known.rows++;
    },
    ledger: () => ({
      tables: [...tables],
      mended: [...mended.values()].map(({ first, rows }) => ({ ...first, rows })),
      notUsed: [...notUsed],
    }),
  };
}
