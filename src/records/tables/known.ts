import type { Station, Wall } from '../../trial/index.js';
import { type KnownNames, knownNames } from '../cells/known-names.js';
import type { ProtocolFindings } from '../protocol/findings.js';

/** The names that rows may refer to. A list is absent where the file that defines it could not be read. */
export interface Known {
  readonly arms?: KnownNames;
  readonly instruments?: KnownNames;
  readonly walls?: KnownNames;
  /** Absent also where the folder has no `stations.csv`. */
  readonly stations?: KnownStations;
}

export interface KnownStations {
  has(wall: string, station: string): boolean;
  /** The walls that have a station of this name. */
  wallsOf(station: string): readonly string[];
  namesOn(wall: string): readonly string[];
}

export function namesOfProtocol({ arms, instruments }: ProtocolFindings): Pick<Known, 'arms' | 'instruments'> {
  return {
    ...(arms === undefined
      ? {}
      : {
          arms: knownNames(
            'an arm of protocol.json',
            arms.map(({ arm }) => arm),
          ),
        }),
    ...(instruments === undefined
      ? {}
      : {
          instruments: knownNames(
            'an instrument of protocol.json',
            instruments.map(({ instrument }) => instrument),
          ),
        }),
  };
}

export function wallNames(walls: readonly Wall[]): KnownNames {
  return knownNames(
    'a wall of walls.csv',
    walls.map(({ wall }) => wall),
  );
}

export function knownStations(stations: readonly Station[]): KnownStations {
  const byWall = new Map<string, Set<string>>();
  for (const { wall, station } of stations) byWall.set(wall, (byWall.get(wall) ?? new Set()).add(station));
  return {
    has: (wall, station) => byWall.get(wall)?.has(station) ?? false,
    wallsOf: (station) => [...byWall].filter(([, names]) => names.has(station)).map(([wall]) => wall),
    namesOn: (wall) => [...(byWall.get(wall) ?? [])],
  };
}
