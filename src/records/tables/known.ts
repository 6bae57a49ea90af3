import { distinctBy } from '../../plain/group-by.js';
import type { DryingBatchRecord, Station, Wall } from '../../trial/index.js';
import { type KnownNames, knownNames } from '../cells/known-names.js';
import type { ProtocolFindings } from '../protocol/findings.js';
import { quoted } from '../quoted.js';
import type { PlaceBook } from './places.js';

/** The names that rows may refer to. A list is absent where the file that defines it could not be read. */
export interface Known {
  readonly arms?: KnownNames;
  readonly instruments?: KnownNames;
  readonly walls?: KnownNames;
  /** Absent also where the folder has no `batches.csv`. */
  readonly batches?: KnownNames;
  /** Absent also where the folder has no `stations.csv`. */
  readonly stations?: KnownStations;
  readonly places: PlaceBook;
}

export interface KnownStations {
  /** The stations of a wall; nothing where it has none. */
  on(wall: string): KnownNames | undefined;
  /** The walls that have a station of this name. */
  wallsWith(station: string): readonly string[];
}

export function namesOfProtocol({ file, arms, instruments }: ProtocolFindings): Pick<Known, 'arms' | 'instruments'> {
  return {
    ...(arms === undefined
      ? {}
      : {
          arms: knownNames(
            `an arm of ${file}`,
            arms.map(({ arm }) => arm),
          ),
        }),
    ...(instruments === undefined
      ? {}
      : {
          instruments: knownNames(
            `an instrument of ${file}`,
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

export function batchNames(batches: readonly DryingBatchRecord[]): KnownNames {
  return knownNames(
    'a batch of batches.csv',
    batches.map(({ batch }) => batch),
  );
}

export function knownStations(stations: readonly Station[]): KnownStations {
  const [wallOf, nameOf] = [({ wall }: Station) => wall, ({ station }: Station) => station];
  const namesByWall = distinctBy(stations, wallOf, nameOf);
  const wallsByName = distinctBy(stations, nameOf, wallOf);
  const known = new Map(
    [...namesByWall].map(([wall, names]) => [wall, knownNames(`a station of wall ${quoted(wall)}`, names)]),
  );
  return {
    on: (wall) => known.get(wall),
    wallsWith: (station) => [...(wallsByName.get(station) ?? [])],
  };
}
