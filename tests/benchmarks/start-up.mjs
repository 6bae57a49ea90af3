import { join } from 'node:path';

export const title = 'Starting the command, in multiples of what Node.js takes to start and do nothing';

const root = join(import.meta.dirname, '../..');
const cli = join(root, 'dist/cli.js');

export const cases = [
  { label: 'fairwall --help', mostTimes: 2.5, command: () => [cli, '--help'] },
  {
    label: 'fairwall opinion on twelve pairs of walls',
    mostTimes: 12,
    command: (folder) => [cli, 'opinion', join(root, 'datasets/paired-garden-walls'), '--out', join(folder, 'opinion')],
  },
];

export function prepare() {}
