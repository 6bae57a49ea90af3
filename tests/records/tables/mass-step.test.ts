import { expect, it } from 'vitest';
import { readTrial } from '../../../src/records/index.js';
import { editedFolder, put, remove } from '../../helpers/edit-folder.js';
import { inFolder } from '../../helpers/valid-folder.js';

it.each([
  [['52,46'], 1],
  [['52.1,46'], 0.1],
  [['52.10,46', '53,46.5'], 0.01],
  [['NA,46', '52,46.125'], 0.001],
  [['5.25e1,46'], 0.1],
  [['5200e-2,46'], 0.01],
])('readTrial(folder).source.massStep_g of masses %j: %d', async (masses, step) => {
  const rows = masses.map((mass, index) => `2024-03-12,w1,s${index},${mass}`);
  const cores = ['date,wall,station,wet_g,dry_g', ...rows].join('\n');
  const trial = await inFolder(editedFolder(remove('stations.csv'), put('cores.csv', cores)), readTrial);
  expect(trial.source.massStep_g).toBe(step);
});

it('readTrial(folder).source.massStep_g of decimal commas', async () => {
  const cores = 'date;wall;wet_g;dry_g\n2024-03-12;w1;52,125;46\n';
  expect(
    (await inFolder(editedFolder(remove('stations.csv'), put('cores.csv', cores)), readTrial)).source.massStep_g,
  ).toBe(0.001);
});
