import { MoistureError } from '../moisture-error.js';
import { type PotentialAtVisit, type SignChange, signChange } from './sign-change.js';

export interface PotentialsOfWall {
  readonly wall: string;
  readonly side: 'treated' | 'untreated';
  readonly visits: readonly PotentialAtVisit[];
}

/** How many walls of one side did what. */
export interface SignTally {
  readonly walls: number;
  readonly changed: number;
  readonly unchanged: number;
  readonly backAndForth: number;
  readonly unclear: number;
}

export interface SignChangesOfWalls {
  readonly walls: readonly {
    readonly wall: string;
    readonly side: 'treated' | 'untreated';
    readonly change: SignChange;
  }[];
  readonly treated: SignTally;
  readonly untreated: SignTally;
}

/**
 * The change of sign in every wall, and how many walls of either side had one: a change that the untreated walls show too
 * cannot be put down to the treatment.
 *
 * @param options.level of each wall's statement, 0.95 unless given
 * @throws MoistureError `too-few` without walls, and as `signChange`
 * @example
 * const visits = [['2024-05-02', 30], ['2024-06-03', -28]].map(([day, voltage_mv]) => ({ day, voltage_mv, standardUncertainty_mv: 3 }));
 * signChangesOfWalls([{ wall: 'W01', side: 'treated', visits }, { wall: 'W02', side: 'untreated', visits }]).untreated // { walls: 1, changed: 1, unchanged: 0, backAndForth: 0, unclear: 0 }
 */
export function signChangesOfWalls(
  walls: readonly PotentialsOfWall[],
  options: { readonly level?: number } = {},
): SignChangesOfWalls {
  if (walls.length === 0) throw new MoistureError('signChangesOfWalls', 'too-few', 'needs at least one wall');
  const judged = walls.map(({ wall, side, visits }) => ({ wall, side, change: signChange(visits, options) }));
  const tally = (side: 'treated' | 'untreated'): SignTally => {
    const kinds = judged.filter((wall) => wall.side === side).map(({ change }) => change.kind);
    const count = (kind: SignChange['kind']) => kinds.filter((one) => one === kind).length;
    return {
      walls: kinds.length,
      changed: count('changed'),
      unchanged: count('unchanged'),
      backAndForth: count('back-and-forth'),
      unclear: count('unclear'),
    };
  };
  return { walls: judged, treated: tally('treated'), untreated: tally('untreated') };
}
