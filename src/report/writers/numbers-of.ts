import type { Figure, Photo, ReportDocument, Table } from '../document.js';

/** The number of every figure (photographs among them) and of every table, each counted from 1 through the whole document. */
export function numbersOf({ sections }: ReportDocument): ReadonlyMap<Figure | Photo | Table, number> {
  const numbers = new Map<Figure | Photo | Table, number>();
  const last = { figure: 0, table: 0 };
  for (const { blocks } of sections)
    for (const block of blocks) {
      if (block.kind !== 'figure' && block.kind !== 'photograph' && block.kind !== 'table') continue;
      const kind = block.kind === 'table' ? 'table' : 'figure';
      last[kind] += 1;
      numbers.set(block, last[kind]);
    }
  return numbers;
}
