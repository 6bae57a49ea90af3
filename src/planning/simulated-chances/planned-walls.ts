import { type ComparisonDesign, comparisonDesign, type StationChange, wallChanges } from '../../analysis/index.js';
import { unitsOfWalls } from '../../analysis/units-of-comparison.js';
import type { Trial, Wall } from '../../trial/index.js';
import { PlanningError } from '../planning-error.js';
import type { PlannedDesign } from '../walls-needed/planned-design.js';

/** The walls of a design as a trial folder would name them. */
export interface PlannedWalls {
  /** Walls by what they share: a pair, a block or a house; of a complete design each by itself. */
  readonly groups: readonly (readonly NamedStations[])[];
  /** Whether a whole group is lost together, as a house is. */
  readonly isLostWhole: boolean;
  /** From stations' changes to what is compared, as in an opinion. */
  readonly designOf: (stations: readonly StationChange[]) => ComparisonDesign;
}

/** A wall with the names of its stations, which are the same in every trial. */
export interface NamedStations {
  readonly wall: string;
  readonly arm: string;
  readonly stations: readonly string[];
}

/**
 * @throws PlanningError `not-possible` for two walls, whose visits are the sample
 */
export function plannedWalls(design: PlannedDesign, stations: number): PlannedWalls {
  const groups = groupsOf(design).map((sides, group) =>
    sides.map((arm, at): Wall => {
      const name = `${group + 1}`;
      const place = design.kind === 'houses' ? { site: name } : design.kind === 'complete' ? {} : { block: name };
      return { wall: `${name}-${at + 1}`, arm, ...place, origin: { file: '', row: 0 } };
    }),
  );
  const trial = trialOf(groups.flat(), design.kind === 'houses' ? 'site' : 'wall');
  const unitsOf = unitsOfWalls(trial);
  return {
    groups: groups.map((walls) =>
      walls.map(({ wall, arm }) => ({
        ...{ wall, arm },
        stations: Array.from({ length: stations }, (_, at) => `${wall}-${at}`),
      })),
    ),
    isLostWhole: design.kind === 'houses',
    designOf: (changes) => comparisonDesign(unitsOf(wallChanges(trial, changes).walls).units).design,
  };
}

type Side = 'treated' | 'untreated';

function groupsOf(design: PlannedDesign): readonly (readonly Side[])[] {
  const times = <Item>(count: number, item: Item) => Array.from({ length: count }, () => item);
  switch (design.kind) {
    case 'complete':
      return [...times(design.treated, ['treated'] as const), ...times(design.untreated, ['untreated'] as const)];
    case 'pairs':
      return times(design.pairs, ['treated', 'untreated']);
    case 'blocks':
      return times(design.blocks, [
        ...times<Side>(design.treated, 'treated'),
        ...times<Side>(design.untreated, 'untreated'),
      ]);
    case 'houses':
      return [
        ...times(design.treated, times<Side>(design.wallsPerHouse, 'treated')),
        ...times(design.untreated, times<Side>(design.wallsPerHouse, 'untreated')),
      ];
    case 'two-walls':
      throw new PlanningError(
        'simulatedChances',
        'not-possible',
        'needs several walls an arm; two walls are followed by seriesChances',
      );
  }
}

/** As much of a trial as the comparison looks at. */
function trialOf(walls: readonly Wall[], unit: 'site' | 'wall'): Trial {
  return {
    protocol: {
      ...{ title: '', claim: '', confidence: 0.95, instruments: [] },
      outcome: { instrument: '', quantity: '', unit: '', better: 'higher' },
      blinding: { readers: true, occupants: true, analyst: true },
      disclosures: { funding: '', interests: '' },
      arms: [
        { arm: 'treated', role: 'treated' },
        { arm: 'untreated', role: 'control' },
      ],
      allocation: { method: 'randomised', by: '', unit },
    },
    walls,
    ...{ stations: [], readings: [], cores: [], climate: [], beliefs: [], events: [] },
    source: { fingerprint: '', files: [] },
  };
}
