import type { Core, Trial } from '../../src/trial/index.js';
import { madeTrial, soundProtocol, wallsWithChanges } from './made-trial.js';

export const origin = { file: 'cores.csv', row: 2 };

/** The sound protocol with a balance that shows 0.01 g. */
export const protocol = {
  ...soundProtocol,
  instruments: [{ instrument: 'core', kind: 'gravimetric' as const, resolution_g: 0.01 }],
};

/** One treated wall and one untreated, and cores, net and of spring 2024 unless they say otherwise. */
export function coreTrial(cores: readonly Partial<Core>[], further: Partial<Trial> = {}): Trial {
  return madeTrial(wallsWithChanges([-3], [0]), {
    protocol,
    readings: [],
    cores: cores.map((core) => ({ date: '2024-04-01', wall: 't1', station: 'a', container_g: 0, origin, ...core })),
    ...further,
  });
}

export const blocksInWords = (blocks: readonly unknown[]) => JSON.stringify(blocks);
