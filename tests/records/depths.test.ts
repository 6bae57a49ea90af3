import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../src/records/read-trial.js';
import { describeProblem } from '../../src/trial/index.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

const header = 'station,wall,height_mm,depth_mm,depth_from_mm,depth_to_mm\n';

/** The sound folder's own stations, and one more. */
async function stationsOf(row: string) {
  const folder = validFolder();
  const [, ...own] = `${folder['stations.csv']}`.trim().split('\n');
  const rows = [row, ...own.map((each) => `${each},,`)];
  const check = await inFolder({ ...folder, 'stations.csv': `${header}${rows.join('\n')}\n` }, checkTrial);
  return check.kind === 'trial' ? check.trial.stations : check.problems.map(describeProblem);
}

describe('stations.csv: cores as depth intervals', () => {
  it.each([
    ['core,w1,200,,20,60', { depth_mm: 40, depths_mm: { from: 20, to: 60 } }],
    ['core,w1,200,60,20,60', { depth_mm: 60, depths_mm: { from: 20, to: 60 } }],
    ['core,w1,200,20,20,60', { depth_mm: 20, depths_mm: { from: 20, to: 60 } }],
  ])('reads %s', async (row, expected) => {
    const stations = await stationsOf(row);
    expect(stations).toHaveLength(9);
    expect(stations[0]).toMatchObject(expected);
  });

  it.each([
    ['core,w1,200,,60,60', /column depth_to_mm: .*beyond depth_from_mm, 60/],
    ['core,w1,200,61,20,60', /column depth_mm: .*inside the core, from 20 to 60/],
    ['core,w1,200,19,20,60', /column depth_mm: .*inside the core/],
    ['core,w1,200,,20,', /column depth_from_mm: .*both ends/],
    ['core,w1,200,,,60', /column depth_to_mm: .*both ends/],
    ['core,w1,200,,-1,60', /column depth_from_mm: .*0 or more/],
  ])('refuses %s', async (row, problem) => {
    const found = await stationsOf(row);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(problem);
  });
});
