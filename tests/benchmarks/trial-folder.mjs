import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readTrial } from '../../dist/index.js';

export const title = 'Trial folders';

const root = join(import.meta.dirname, '../..');
const trial = join(root, 'datasets/paired-garden-walls');

export const cases = [
  { name: 'readings', label: 'A folder with 200,000 readings, read and checked', mostSeconds: 2, repeats: 1, mostMegabytes: 300 },
  {
    name: 'opinion',
    label: 'The opinion on twelve pairs of walls, by the command',
    mostSeconds: 2.5,
    command: (folder) => [join(root, 'dist/cli.js'), 'opinion', trial, '--out', join(folder, 'opinion')],
  },
];

/** The bundled trial, with a reading of the microwave meter every minute at each of eight stations in turn. */
export function prepare(folder) {
  const copy = join(folder, 'readings');
  cpSync(trial, copy, { recursive: true });
  const lines = Array.from({ length: 200_000 }, (_, row) => {
    const time = new Date(Date.UTC(2024, 2, 1) + Math.floor(row / 8) * 60_000).toISOString().slice(0, 16);
    const [wall, height] = [`W${String(1 + (row % 4)).padStart(2, '0')}`, row % 8 < 4 ? 'low' : 'middle'];
    return `${time},${wall},${wall}-${height}-40,microwave,${(40 + (row % 977) / 50).toFixed(2)},R1,no`;
  });
  writeFileSync(join(copy, 'readings.csv'), ['date,wall,station,instrument,value,reader,knew_arm', ...lines].join('\n'));
}

export function load(name, folder) {
  return () => readTrial(join(folder, name));
}
