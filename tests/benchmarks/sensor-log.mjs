import { closeSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { readSensorLog } from '../../dist/index.js';
import { normalDraws, randomStream } from '../../dist/statistics/index.js';

export const title = 'A log of 5,000,000 rows, from the file to daily means with gaps, stuck values, spikes and steps, against fread';

export const cases = [
  { name: 'log', label: '20 sensors every 2 minutes, 347 days', atLeast: 1, repeats: 3, repeatsOfR: 3, mostMegabytes: 300 },
];

const sensors = Array.from({ length: 20 }, (_, at) => `P${String(at + 1).padStart(2, '0')}`);
const readings = 250_000;
const start = Date.UTC(2024, 0, 1);

/** Each sensor with a level of its own, a slow swing and noise; one reading in some ten thousand is a spike. */
export function prepare(folder) {
  const draws = randomStream(20240920);
  const file = openSync(join(folder, 'sensors.csv'), 'w');
  let lines = ['time,sensor,value'];
  for (let at = 0; at < readings; at++) {
    const time = new Date(start + at * 120_000).toISOString().slice(0, 19);
    const noise = normalDraws(draws, sensors.length);
    for (const [index, sensor] of sensors.entries()) {
      const spike = (at * 31 + index * 17) % 9973 === 0 ? 50 : 0;
      lines.push(`${time},${sensor},${(8 + index / 4 + Math.sin(at / 5000) + 0.3 * noise[index] + spike).toFixed(2)}`);
    }
    if (lines.length < 50_000 && at + 1 < readings) continue;
    writeSync(file, `${lines.join('\n')}\n`);
    lines = [];
  }
  closeSync(file);
}

export function load(_name, folder) {
  return () => readSensorLog(join(folder, 'sensors.csv'), sensors);
}
