import type { Problem } from '../../trial/index.js';
import { nearestName } from '../nearest-name.js';
import { quoted } from '../quoted.js';

/**
 * Files whose name is so close to that of an absent file of the contract that it must be a slip; ignored in silence, their
 * content would be missed by nobody.
 */
export function misnamedFiles(names: readonly string[], absent: readonly string[]): Problem[] {
  return names.flatMap((name) => {
    const suggestion = absent.includes(name) ? undefined : nearestFile(name, absent);
    if (suggestion === undefined) return [];
    const found = `a name that is nearly ${quoted(suggestion)}, which is not there`;
    return [{ file: name, found, expected: 'that name exactly, or one less like it', suggestion }];
  });
}

/** Compares without the ending, so that `wall.csv` is as far from `walls.csv` as `wall` from `walls`. */
function nearestFile(name: string, absent: readonly string[]): string | undefined {
  const stem = nearestName(stemOf(name), absent.map(stemOf));
  return absent.find((file) => stemOf(file) === stem && kindOf(file) === kindOf(name));
}

/** `readings (1).csv` and `readings.csv.txt` are what downloads and mail programs make of `readings.csv`. */
function stemOf(name: string): string {
  return name
    .replace(/\.(?:csv|json|txt|tsv)$/i, '')
    .replace(/\.(?:csv|json)$/i, '')
    .replace(/ ?\(\d+\)$/, '');
}

function kindOf(name: string): 'protocol' | 'table' | 'other' {
  if (/\.json(?:\.txt)?$/i.test(name)) return 'protocol';
  return /\.(?:csv|tsv|txt)$/i.test(name) ? 'table' : 'other';
}
