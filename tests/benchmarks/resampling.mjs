import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bootstrap, normalDraws, randomisationTest, randomStream } from '../../dist/statistics/index.js';

export const title = 'Resampling of 24 walls, against a loop in R (p-value only) and against boot';

export const cases = [
  { name: 'randomisation', label: '9,999 randomisations, p and interval', atLeast: 20 },
  { name: 'bca', label: '9,999 BCa replicates', atLeast: 20 },
];

/** One row a wall: its arm and its change. */
export function prepare(folder) {
  const changes = normalDraws(randomStream(20240201), 24);
  const rows = Array.from(changes, (change, wall) => `${wall % 2},${change - 0.8 * (wall % 2)}`);
  writeFileSync(join(folder, 'walls.csv'), ['arm,change', ...rows].join('\n'));
}

export function load(name, folder) {
  const rows = readFileSync(join(folder, 'walls.csv'), 'utf8').split('\n').slice(1);
  const of = (arm) => rows.map((row) => row.split(',').map(Number)).filter((row) => row[0] === arm).map((row) => row[1]);
  const [treated, untreated] = [of(1), of(0)];
  if (name === 'randomisation') {
    // Never all of the allocations, so that both sides draw.
    return () => randomisationTest({ kind: 'complete', treated, untreated }, { seed: 1, draws: 9_999, exactUpTo: 0 });
  }
  const alone = (values) => values.map((value) => [value]);
  return () => bootstrap({ kind: 'two-groups', treated: alone(treated), untreated: alone(untreated) }, { seed: 1 });
}
