import type { CountRow } from '../reading-counts.js';

/** Visits beside each other on a terminal of 100 characters. */
const mostVisits = 36;
const longestLabel = 20;

/**
 * Rows of dots for a terminal: `●` all, `◐` some, `·` none. Many visits are broken into parts below each other; every fifth visit bears
 * its number.
 *
 * @example dotsInText([{ label: 'W01', most: 3, counts: [3, 1, 0] }]) // '     1\nW01  ● ◐ ·'
 */
export function dotsInText(rows: readonly CountRow[]): string {
  const visits = Math.max(0, ...rows.map(({ counts }) => counts.length));
  const width = Math.min(longestLabel, Math.max(0, ...rows.map(({ label }) => label.length)));
  const parts: string[] = [];
  for (let from = 0; from < visits; from += mostVisits) {
    const to = Math.min(visits, from + mostVisits);
    const lines = rows.map(({ label, most, counts }) => {
      const dots = counts.slice(from, to).map((count) => (count === 0 ? '·' : count === most ? '●' : '◐'));
      return `${shortened(label).padEnd(width)}  ${dots.join(' ')}`;
    });
    parts.push([`${' '.repeat(width)}  ${numbersAbove(from, to)}`, ...lines].join('\n'));
  }
  return parts.join('\n\n');
}

function numbersAbove(from: number, to: number): string {
  const every = 5;
  let line = '';
  for (let visit = from; visit < to; visit++) {
    if (visit !== from && (visit + 1) % every !== 0) continue;
    // A number right behind another would be taken for one with it.
    if (line.length > 0 && line.length >= 2 * (visit - from)) continue;
    line = line.padEnd(2 * (visit - from)) + String(visit + 1);
  }
  return line;
}

function shortened(label: string): string {
  return label.length <= longestLabel ? label : `${label.slice(0, longestLabel - 1)}…`;
}
