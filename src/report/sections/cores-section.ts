import type { Opinion } from '../../opinion/opinion.js';
import type { Block, Section } from '../document.js';
import { airBlocks } from './air-blocks.js';
import { batchBlocks, reusedBlocks } from './core-blocks.js';
import { hygroscopicBlocks } from './hygroscopic-blocks.js';
import { potentialBlocks } from './potential-blocks.js';
import { frontBlocks, mapBlocks, waterBlocks } from './profile-blocks.js';
import { unitsBlocks } from './units-blocks.js';

/** Drying, reused cores, the hygroscopic part, stored water, fronts and maps: whatever the folder states. */
export function coresSection({ cores = {} }: Opinion): Section | undefined {
  return ifAny('cores', 'What the cores say', [
    ...batchBlocks(cores.batches),
    ...reusedBlocks(cores.reused),
    ...hygroscopicBlocks(cores.hygroscopic),
    ...unitsBlocks(cores.units),
    ...waterBlocks(cores.water),
    ...frontBlocks(cores.fronts),
    ...mapBlocks(cores.maps),
  ]);
}

export function airSection({ air = [], airRecord, drying }: Opinion): Section | undefined {
  return ifAny('air', 'What the air says', airBlocks(air, drying?.airOfArms, airRecord));
}

export function potentialsSection({ potentials = [] }: Opinion): Section | undefined {
  return ifAny('potentials', 'What the voltages say', potentials.flatMap(potentialBlocks));
}

function ifAny(id: string, heading: string, blocks: readonly Block[]): Section | undefined {
  return blocks.length === 0 ? undefined : { id, heading, blocks };
}
