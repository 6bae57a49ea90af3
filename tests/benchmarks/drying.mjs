import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dryingRateRatio } from '../../dist/index.js';
import { normalDraws, randomStream } from '../../dist/statistics/index.js';

export const title = 'Drying curves of walls, all in one fit';

export const cases = [
  { name: 'drying', label: '24 walls of 12 stations at 24 visits', mostSeconds: 2, repeats: 5 },
];

const [WALLS, STATIONS, VISITS] = [24, 12, 24];

/** Treated walls dry 1.5 times as fast; walls differ in rate and in what they lose, stations in how wet they stay. */
export function prepare(folder) {
  const stream = randomStream(20240204);
  const [rates, losses] = [normalDraws(stream, WALLS), normalDraws(stream, WALLS)];
  const [kept, noise] = [normalDraws(stream, WALLS * STATIONS), normalDraws(stream, WALLS * STATIONS * VISITS)];
  const lines = Array.from(noise, (error, row) => {
    const [station, day] = [Math.floor(row / VISITS), 15 * (row % VISITS)];
    const wall = Math.floor(station / STATIONS);
    const rate = Math.exp(-4.6 + 0.4 * (wall % 2) + 0.2 * rates[wall]);
    return [wall, station, day, 3 + kept[station] + (7 + losses[wall]) * Math.exp(-rate * day) + 0.8 * error].join(',');
  });
  writeFileSync(join(folder, 'drying.csv'), lines.join('\n'));
}

export function load(name, folder) {
  const lines = readFileSync(join(folder, `${name}.csv`), 'utf8').split('\n');
  const observations = lines.map((line) => {
    const [wall, station, time_d, moisture] = line.split(',').map(Number);
    const side = wall % 2 === 1 ? 'treated' : 'untreated';
    return { wall: `wall ${wall}`, arm: side, side, block: '', station: `station ${station}`, time_d, moisture };
  });
  return () => {
    const answer = dryingRateRatio(observations, { level: 0.95, season: false });
    if (answer.kind !== 'estimated') throw new Error(answer.notEstimated.reason.code);
  };
}
