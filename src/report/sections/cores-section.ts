import type { Opinion } from '../../opinion/opinion.js';
import { listInWords } from '../../words/quantity.js';
import type { Section } from '../document.js';
import { airBlocks } from './air-blocks.js';
import { batchBlocks, reusedBlocks } from './core-blocks.js';
import { hygroscopicBlocks } from './hygroscopic-blocks.js';
import { potentialBlocks } from './potential-blocks.js';
import { frontBlocks, mapBlocks, waterBlocks } from './profile-blocks.js';
import { unitsBlocks } from './units-blocks.js';

/** Drying, reused cores, the hygroscopic part, stored water, fronts, maps, the air, and voltages: whatever the folder states. */
export function coresSection(opinion: Opinion): Section | undefined {
  const { cores = {}, air = [], airRecord, potentials = [], drying } = opinion;
  const ofCores = [
    ...batchBlocks(cores.batches),
    ...reusedBlocks(cores.reused),
    ...hygroscopicBlocks(cores.hygroscopic),
    ...unitsBlocks(cores.units),
    ...waterBlocks(cores.water),
    ...frontBlocks(cores.fronts),
    ...mapBlocks(cores.maps),
  ];
  const parts = [
    { name: 'the cores', blocks: ofCores },
    { name: 'the air', blocks: airBlocks(air, drying?.airOfArms, airRecord) },
    { name: 'the voltages', blocks: potentials.flatMap(potentialBlocks) },
  ].filter(({ blocks }) => blocks.length > 0);
  if (parts.length === 0) return undefined;
  return { id: 'cores-and-air', heading: headingOf(parts), blocks: parts.flatMap(({ blocks }) => blocks) };
}

/** Of what is there: a heading that promises cores where none say anything misleads. */
function headingOf(parts: readonly { readonly name: string }[]): string {
  const names = parts.map(({ name }) => name);
  return `What ${listInWords(names)} ${names.join() === 'the air' ? 'says' : 'say'}`;
}
