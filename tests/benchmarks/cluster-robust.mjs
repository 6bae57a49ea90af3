import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  clusterRobust,
  clusterRobustContrast,
  designMatrix,
  factor,
  interaction,
  intercept,
  leastSquares,
  normalDraws,
  randomStream,
} from '../../dist/statistics/index.js';

export const title = 'Cluster-robust errors CR2 with their degrees of freedom against clubSandwich';

export const cases = [
  { name: 'walls', label: 'Least squares and CR2 by wall, 6,912 rows', atLeast: 50, repeatsOfR: 3 },
];

const [WALLS, STATIONS, VISITS] = [24, 12, 24];

/** Twelve blocks of two walls, one of them treated after the first half of the visits. */
export function prepare(folder) {
  const stream = randomStream(20240202);
  const walls = normalDraws(stream, WALLS);
  const noise = normalDraws(stream, WALLS * STATIONS * VISITS);
  const lines = Array.from(noise, (error, row) => {
    const wall = Math.floor(row / (STATIONS * VISITS));
    const period = row % VISITS < VISITS / 2 ? 'before' : 'after';
    const arm = wall % 2 === 0 ? 'control' : 'treated';
    return [`wall ${wall}`, `block ${wall >> 1}`, arm, period, 9 + walls[wall] + error].join(',');
  });
  writeFileSync(join(folder, 'walls.csv'), ['wall,block,arm,period,value', ...lines].join('\n'));
}

/** Timed from the columns to the standard error and degrees of freedom of every coefficient, as R's side is. */
export function load(name, folder) {
  const [, ...lines] = readFileSync(join(folder, `${name}.csv`), 'utf8').split('\n');
  const cells = lines.map((line) => line.split(','));
  const column = (index) => cells.map((row) => row[index]);
  const [walls, blocks, arms, periods, values] = [column(0), column(1), column(2), column(3), column(4).map(Number)];
  return () => {
    const arm = factor('arm', arms, { reference: 'control' });
    const period = factor('period', periods, { reference: 'before' });
    const block = factor('block', blocks, { reference: 'block 0' });
    const fit = leastSquares(designMatrix([intercept(), arm, period, interaction(arm, period), block]), values);
    const robust = clusterRobust(fit, walls);
    return fit.coefficients.map(({ name: one }) => clusterRobustContrast(robust, { [one]: 1 }));
  };
}
