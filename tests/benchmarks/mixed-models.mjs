import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fitMixedModel, kenwardRoger, normalDraws, randomStream } from '../../dist/statistics/index.js';

export const title = 'Linear mixed models against lme4 and pbkrtest';

export const cases = [
  { name: 'intercepts', label: 'REML, walls and stations, 6,912 rows', atLeast: 15, repeatsOfR: 9 },
  { name: 'slopes', label: 'REML, blocks, wall slopes, stations, 6,912 rows', atLeast: 15 },
  { name: 'kenward-roger-small', label: 'Kenward–Roger, 576 rows', atLeast: 20 },
  { name: 'kenward-roger', label: 'Kenward–Roger, 6,912 rows', atLeast: 50, repeatsOfR: 1 },
  { name: 'simulated', label: '200 simulated trials, a REML fit each', atLeast: 20, repeats: 5, repeatsOfR: 1 },
];

const trials = {
  large: { walls: 24, stations: 12, visits: 24, replicates: 1 },
  small: { walls: 24, stations: 6, visits: 4, replicates: 1 },
  simulated: { walls: 24, stations: 6, visits: 4, replicates: 200 },
};

const dataOf = {
  intercepts: 'large',
  slopes: 'large',
  'kenward-roger-small': 'small',
  'kenward-roger': 'large',
  simulated: 'simulated',
};

/** One file per trial: wall, block, arm, station and time, then a response for each replicate. */
export function prepare(folder) {
  Object.entries(trials).forEach(([name, trial], at) => {
    const lines = rows(trial, randomStream(20240201, at)).map((row) => row.join(','));
    const responses = Array.from({ length: trial.replicates }, (_, replicate) => `y${replicate + 1}`);
    writeFileSync(join(folder, `${name}.csv`), [['wall', 'block', 'arm', 'station', 'time', ...responses], ...lines].join('\n'));
  });
}

function rows({ walls, stations, visits, replicates }, stream) {
  const draws = (count) => Array.from({ length: replicates }, () => normalDraws(stream, count));
  const [blocks, wallsOf, slopes] = [draws(walls / 2), draws(walls), draws(walls)];
  const [stationsOf, noise] = [draws(walls * stations), draws(walls * stations * visits)];
  return Array.from({ length: walls * stations * visits }, (_, row) => {
    const station = Math.floor(row / visits);
    const wall = Math.floor(station / stations);
    const block = Math.floor(wall / 2);
    const [arm, time] = [wall % 2, (row % visits) / visits];
    const responses = noise.map((residual, at) => {
      const wallShare = blocks[at][block] + 0.8 * wallsOf[at][wall] + 0.8 * slopes[at][wall] * time;
      return 12 - 2 * time - arm * time + wallShare + 0.6 * stationsOf[at][station] + residual[row];
    });
    return [`wall ${wall}`, `block ${block}`, arm, `wall ${wall} station ${station}`, time, ...responses];
  });
}

export function load(name, folder) {
  const [header, ...lines] = readFileSync(join(folder, `${dataOf[name]}.csv`), 'utf8').split('\n');
  const cells = lines.map((line) => line.split(','));
  const text = (column) => cells.map((row) => row[header.split(',').indexOf(column)]);
  const numbers = (column) => text(column).map(Number);
  const [arm, time] = [numbers('arm'), numbers('time')];
  const intercept = { name: 'intercept', values: arm.map(() => 1) };
  const slope = { name: 'time', values: time };
  const fixed = {
    columns: [intercept, { name: 'arm', values: arm }, slope, { name: 'arm by time', values: arm.map((a, row) => a * time[row]) }],
  };
  const wall = { name: 'wall', groups: text('wall') };
  const station = { name: 'station', groups: text('station') };
  const nested = { response: numbers('y1'), fixed, random: [wall, station], method: 'reml' };
  switch (name) {
    case 'intercepts':
      return () => fitMixedModel(nested);
    case 'slopes': {
      const random = [{ name: 'block', groups: text('block') }, { ...wall, columns: [intercept, slope] }, station];
      return () => fitMixedModel({ ...nested, random });
    }
    case 'simulated': {
      const responses = Array.from({ length: trials.simulated.replicates }, (_, at) => numbers(`y${at + 1}`));
      return () => {
        for (const response of responses) fitMixedModel({ ...nested, response });
      };
    }
    default: {
      const fit = fitMixedModel(nested);
      return () => kenwardRoger(fit, { 'arm by time': 1 });
    }
  }
}
