/** Every single value of a plan by its key, with dots between and lists counted from 1. */
export function planLeaves(value: unknown, key = ''): readonly (readonly [string, string | number])[] {
  if (typeof value === 'string' || typeof value === 'number') return [[key, value]];
  if (typeof value === 'boolean') return [[key, value ? 'yes' : 'no']];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) => {
    const part = Array.isArray(value) ? String(Number(name) + 1) : name;
    return planLeaves(inner, key === '' ? part : `${key}.${part}`);
  });
}
