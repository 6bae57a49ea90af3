/**
 * Row numbers as a reader writes them: `12–15, 18`. Beyond `most` runs the rest is counted.
 *
 * @example compactRows([12, 13, 14, 15, 18]) // '12–15, 18'
 */
export function compactRows(rows: readonly number[], most = 400): string {
  const sorted = [...new Set(rows)].sort((a, b) => a - b);
  const runs: { readonly from: number; to: number }[] = [];
  for (const row of sorted) {
    const run = runs.at(-1);
    if (run !== undefined && row === run.to + 1) run.to = row;
    else runs.push({ from: row, to: row });
  }
  const shown = runs.slice(0, most).map(({ from, to }) => (from === to ? `${from}` : `${from}–${to}`));
  const hidden = runs.slice(most).reduce((count, { from, to }) => count + to - from + 1, 0);
  return hidden === 0 ? shown.join(', ') : `${shown.join(', ')} and ${hidden} more rows, all of them in opinion.json`;
}
