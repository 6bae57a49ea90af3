/** A plan as rows of a table, `key, answer`: the keys dotted, lists counted from 1. */
export function planRows(plan: unknown): string[][] {
  return [['key', 'answer'], ...rowsOf(plan, '')];
}

function rowsOf(value: unknown, path: string): string[][] {
  if (typeof value !== 'object' || value === null) {
    const answer = typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
    return [[path, answer]];
  }
  const isList = Array.isArray(value);
  return Object.entries(value).flatMap(([key, below]) => {
    const step = isList ? String(Number(key) + 1) : key;
    return rowsOf(below, path === '' ? step : `${path}.${step}`);
  });
}
