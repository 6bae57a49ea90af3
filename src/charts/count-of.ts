/**
 * A count with its noun: `1 wall`, `12 walls`.
 *
 * @example countOf(1, 'wall') // '1 wall'
 */
export function countOf(count: number, singular: string): string {
  return `${count} ${singular}${count === 1 ? '' : 's'}`;
}
