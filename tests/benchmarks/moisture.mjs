import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gravimetricBatch } from '../../dist/index.js';
import { normalDraws, randomStream, york, yorkWithoutEach } from '../../dist/statistics/index.js';

export const title = 'Cores to moisture, and a meter calibrated against cores';

export const cases = [
  { name: 'weighings', label: '100,000 weighings to moisture with budgets', mostSeconds: 0.5, repeats: 5 },
  { name: 'york', label: 'York, 10,000 points, and without each of 24 walls', mostSeconds: 0.5, repeats: 5 },
];

const errors = {
  weighing_g: 0.005,
  drying_pct: 0.1,
  sampling: { expected_pp: 0.15, halfWidth_pp: 0.3 },
  transport: { halfWidth_pp: 0.05 },
};

/** Cores of 3 to 15 % in boxes of some 12 g; readings of a meter with an error that grows, against cores with a smaller one. */
export function prepare(folder) {
  const draws = normalDraws(randomStream(20240203), 120_000);
  const weighings = Array.from({ length: 100_000 }, (_, core) => {
    const dry = 40 + 2 * draws[core];
    return [12.2, 12.2 + dry * (1.03 + 0.12 * ((core % 977) / 977)), 12.2 + dry].map((mass) => mass.toFixed(2));
  });
  const points = Array.from({ length: 10_000 }, (_, at) => {
    const [moisture, ofX, ofY] = [3 + (12 * (at % 991)) / 991, 0.2, 1 + (at % 7) / 7];
    const x = moisture + ofX * draws[100_000 + at];
    return [`wall ${at % 24}`, x, 20 + 3 * moisture + ofY * draws[110_000 + at], ofX, ofY];
  });
  writeFileSync(join(folder, 'weighings.csv'), weighings.join('\n'));
  writeFileSync(join(folder, 'york.csv'), points.join('\n'));
}

export function load(name, folder) {
  const rows = readFileSync(join(folder, `${name}.csv`), 'utf8').split('\n').map((line) => line.split(','));
  const column = (index) => rows.map((row) => Number(row[index]));
  if (name === 'weighings') {
    const cores = rows.map((row) => row.map(Number)).map(([container_g, wet_g, dry_g]) => ({ container_g, wet_g, dry_g }));
    return () => gravimetricBatch(cores, errors);
  }
  const walls = rows.map(([wall]) => wall);
  const pairs = { x: column(1), y: column(2), uncertaintyX: column(3), uncertaintyY: column(4) };
  return () => [york(pairs), yorkWithoutEach(pairs, walls)];
}
