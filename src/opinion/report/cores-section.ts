import type { Opinion } from '../opinion.js';
import { airBlocks } from './air-blocks.js';
import { batchBlocks, reusedBlocks } from './core-blocks.js';
import type { Section } from './document.js';
import { hygroscopicBlocks } from './hygroscopic-blocks.js';
import { potentialBlocks } from './potential-blocks.js';
import { frontBlocks, mapBlocks, waterBlocks } from './profile-blocks.js';

/** Drying, reused cores, the hygroscopic part, stored water, fronts, maps, the air, and voltages: whatever the folder states. */
export function coresSection(opinion: Opinion): Section | undefined {
  const { cores = {}, air = [], potentials = [] } = opinion;
  const blocks = [
    ...batchBlocks(cores.batches),
    ...reusedBlocks(cores.reused),
    ...hygroscopicBlocks(cores.hygroscopic),
    ...waterBlocks(cores.water),
    ...frontBlocks(cores.fronts),
    ...mapBlocks(cores.maps),
    ...airBlocks(air),
    ...potentials.flatMap(potentialBlocks),
  ];
  if (blocks.length === 0) return undefined;
  return { id: 'cores-and-air', heading: 'What the cores and the air say', blocks };
}
