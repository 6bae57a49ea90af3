import { describe, expect, it } from 'vitest';
import { readTrial } from '../../src/records/index.js';
import { inFolder, validFolder } from '../helpers/valid-folder.js';

describe('readTrial(folder)', () => {
  it('reads every file of the contract', async () => {
    const trial = await inFolder(validFolder(), readTrial);
    expect(trial.protocol.margin).toBe(2);
    expect(trial.walls.map(({ wall }) => wall)).toEqual(['w1', 'w2', 'w3', 'w4']);
    expect(trial.stations).toHaveLength(8);
    expect(trial.readings).toHaveLength(35);
    expect(trial.cores).toHaveLength(33);
    expect(trial.climate).toHaveLength(3);
    expect(trial.beliefs).toHaveLength(2);
    expect(trial.events).toHaveLength(2);
    expect(trial.source.massStep_g).toBe(0.01);
  });
});
