import { normalDraws, type RandomStream, shuffled } from '../../statistics/index.js';
import { assumed } from './assumed-wall.js';
import type { SimulatedDesign } from './simulated-design.js';
import type { WallBody } from './wall-water.js';

/** A wall as it is, which nobody in the trial knows. */
export interface SimulatedWall {
  readonly wall: string;
  readonly isTreated: boolean;
  readonly block?: string;
  readonly site: string;
  readonly body: WallBody;
  /** Factor on what the air takes from it. */
  readonly evaporation: number;
  /** Factor on its supply from the treatment day on, whatever is done to it. */
  readonly ownSupply: number;
  /** Factor by which the treatment acts on it more than planned, or less. */
  readonly response: number;
  readonly chloride_pct: number;
  /** Of its stations, from the ground up, % by mass. */
  readonly offsets_pp: readonly number[];
}

export const cell_mm = 100;
export const cellsOfWall = 24;

/** The walls of a trial, randomised. */
export function simulatedWalls(design: SimulatedDesign, stream: RandomStream): readonly SimulatedWall[] {
  return groupsOf(design, stream)
    .flatMap((arms, group) => {
      const common = design.layout === 'complete' ? undefined : normalDraws(stream, 3);
      return arms.map((isTreated, place) => oneWall(design, stream, { isTreated, group, place, common }));
    })
    .map((wall, at) => ({ ...wall, wall: `W${String(at + 1).padStart(2, '0')}` }));
}

/** For each block or house, which of its walls are treated. */
function groupsOf(design: SimulatedDesign, stream: RandomStream): readonly (readonly boolean[])[] {
  const { layout, treated, untreated, wallsPerHouse } = design;
  const lots = (count: number, of: readonly boolean[]) => Array.from({ length: count }, () => shuffled(stream, of));
  const arms = (of: number, ofUntreated: number) => [
    ...Array<boolean>(of).fill(true),
    ...Array<boolean>(ofUntreated).fill(false),
  ];
  switch (layout) {
    case 'complete':
      return [shuffled(stream, arms(treated, untreated))];
    case 'pairs':
      return lots(treated, [true, false]);
    case 'blocks-of-four':
      return lots(treated / 2, [true, true, false, false]);
    case 'houses':
      return shuffled(stream, arms(treated / wallsPerHouse, untreated / wallsPerHouse)).map((isTreated) =>
        Array<boolean>(wallsPerHouse).fill(isTreated),
      );
  }
}

interface Place {
  readonly isTreated: boolean;
  readonly group: number;
  readonly place: number;
  /** Of its block or house: sorptivity, evaporation, own change. */
  readonly common: Float64Array | undefined;
}

function oneWall(
  design: SimulatedDesign,
  stream: RandomStream,
  { isTreated, group, common }: Place,
): Omit<SimulatedWall, 'wall'> {
  const { layout, shared, heights_mm } = design;
  const draws = normalDraws(stream, 5 + heights_mm.length);
  const draw = (which: number) => {
    const own = draws[which] as number;
    return common === undefined ? own : Math.sqrt(shared) * (common[which] as number) + Math.sqrt(1 - shared) * own;
  };
  const name = String(group + 1).padStart(2, '0');
  const hasBlock = layout === 'pairs' || layout === 'blocks-of-four';
  return {
    isTreated,
    ...(hasBlock ? { block: `B${name}` } : {}),
    site: layout === 'houses' ? `house ${name}` : 'the hospital',
    body: {
      thickness_mm: assumed.thickness_mm,
      sorptivity: assumed.sorptivity * Math.exp(assumed.spreadOfSorptivity * draw(0)),
      ...{ wet: assumed.wet, critical: assumed.critical, cell_mm },
    },
    evaporation: Math.exp(assumed.spreadOfEvaporation * draw(1)),
    ownSupply: Math.exp(design.ownChange * shaped(design, draw(2))),
    response: Math.exp(design.treatmentSpread * (draws[3] as number)),
    chloride_pct: design.chloride_pct * Math.exp(0.5 * (draws[4] as number)),
    offsets_pp: heights_mm.map((_, at) => assumed.stationSpread_pp * (draws[5 + at] as number)),
  };
}

/** With mean 0 and standard deviation 1, either way; skewed, a few walls lose much of their supply by themselves. */
function shaped({ ownChangeShape }: SimulatedDesign, draw: number): number {
  if (ownChangeShape === 'normal') return draw;
  const [mean, variance] = [Math.exp(0.5), (Math.E - 1) * Math.E];
  return (mean - Math.exp(draw)) / Math.sqrt(variance);
}
