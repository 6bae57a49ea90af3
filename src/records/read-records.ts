import { dryBasisUnits, type Problem, type Trial, unitsPerPercentByMass } from '../trial/index.js';
import type { FolderTables } from './folder/read-tables.js';
import type { ReadingNotes } from './folder/reading-notes.js';
import type { Table } from './folder/table.js';
import type { TableName } from './folder/table-layouts.js';
import type { ProtocolFindings } from './protocol/findings.js';
import { alternatives, quoted } from './quoted.js';
import { checkDesign } from './tables/check-design.js';
import { checkReadings } from './tables/check-readings.js';
import { batchNames, type Known, knownStations, namesOfProtocol, wallNames } from './tables/known.js';
import { placeBook } from './tables/places.js';
import { readBatches } from './tables/read-batches.js';
import { readBeliefs } from './tables/read-beliefs.js';
import { readChecks } from './tables/read-checks.js';
import { readClimate } from './tables/read-climate.js';
import { readCores } from './tables/read-cores.js';
import { readElectrical } from './tables/read-electrical.js';
import { readEvents } from './tables/read-events.js';
import { gridTable } from './tables/read-grids.js';
import { readInjections } from './tables/read-injections.js';
import { readReadings } from './tables/read-readings.js';
import { readSalts } from './tables/read-salts.js';
import { readStations } from './tables/read-stations.js';
import { readTrays } from './tables/read-trays.js';
import { readWalls } from './tables/read-walls.js';
import { readingsOfTrays } from './tables/readings-of-trays.js';
import { unitsOfValues } from './tables/units-of-values.js';

type TrialRecords = Omit<Trial, 'protocol' | 'source'>;

/**
 * Turns the tables into records, each held against the plan and against the tables that it refers to: walls first, then
 * stations, then everything that stands on them. Problems come in this order too.
 */
export function readRecords(
  { tables, grids, present }: FolderTables,
  findings: ProtocolFindings,
  notes: ReadingNotes,
  problems: Problem[],
): TrialRecords {
  const read = <Row>(
    name: TableName,
    rows: (table: Table, found: Problem[]) => readonly Row[],
  ): readonly Row[] | undefined => {
    const table = tables.get(name);
    if (table === undefined) return undefined;
    const found: Problem[] = [];
    const result = rows(table, found);
    for (const problem of found.sort((a, b) => (a.row ?? 0) - (b.row ?? 0))) problems.push(problem);
    return result;
  };

  const protocolNames = namesOfProtocol(findings);
  const walls = read('walls', (table, found) => readWalls(table, protocolNames, found));
  const wallsAreKnown = walls?.length && tables.get('walls')?.refusedRows === 0;
  if (wallsAreKnown) checkDesign(walls, findings, problems);
  const onWalls = { ...protocolNames, ...(wallsAreKnown ? { walls: wallNames(walls) } : {}) };

  const stations = read('stations', (table, found) => readStations(table, onWalls, found));
  // With a wrong header or wrong rows this is no list to hold readings against.
  const stationsAreKnown =
    stations?.length &&
    tables.get('stations')?.refusedRows === 0 &&
    stations.every(({ station, wall }) => station !== '' && wall !== '');
  const known: Known = {
    ...onWalls,
    places: placeBook(stations ?? []),
    ...(stationsAreKnown ? { stations: knownStations(stations) } : {}),
  };

  const units = unitsOfValues(findings);
  const readings = read('readings', (table, found) => readReadings(table, known, units, found)) ?? [];
  const onGrids =
    grids && readReadings(gridTable(grids, findings.naming.dateOrder, notes, problems), known, units, problems);
  const checks = read('checks', (table, found) => readChecks(table, known, found));
  const salts = read('salts', (table, found) => readSalts(table, known, found));
  for (const values of [readings, checks]) checkReadings(values ?? [], findings.instruments, problems);
  const injections = read('injection', (table, found) => readInjections(table, known, found));
  const electrical = read('electrical', (table, found) => readElectrical(table, known, found));
  const batches = read('batches', readBatches);
  const onBatches: Known = { ...known, ...(batches?.length ? { batches: batchNames(batches) } : {}) };
  const balance = findings.instruments?.find(({ kind }) => kind === 'gravimetric');
  const isCarbide = findings.instruments?.some(
    ({ instrument, kind }) => instrument === findings.outcome?.instrument && kind === 'carbide',
  );
  const cores = read('cores', (table, found) =>
    readCores(table, onBatches, { placesUnknown: findings.placesUnknown, notes }, found, balance),
  );
  if (present.has('cores')) checkBalance(findings);
  if (present.has('cores') || isCarbide) checkUnit(findings);
  const trays = read('trays', (table, found) => readTrays(table, known, found));
  checkTrays(findings, present.has('trays'));
  const fromTrays = readingsOfTrays(trays ?? [], findings.instruments ?? []);
  return {
    walls: walls ?? [],
    stations: [...(stations ?? []), ...known.places.added()],
    readings: [...readings, ...(onGrids ?? []), ...fromTrays],
    cores: cores ?? [],
    climate: read('climate', (table, found) => readClimate(table, found)) ?? [],
    beliefs: read('blinding', (table, found) => readBeliefs(table, findings.arms, known, findings.file, found)) ?? [],
    events: read('diary', (table, found) => readEvents(table, known, found)) ?? [],
    ...(batches === undefined ? {} : { batches }),
    ...(checks === undefined ? {} : { checks }),
    ...(salts === undefined ? {} : { salts }),
    ...(injections === undefined ? {} : { injections }),
    ...(trays === undefined ? {} : { trays }),
    ...(electrical === undefined ? {} : { electrical }),
  };
}

/** Each core yields a reading of the gravimetric instrument: there must be one, and no choice of two. */
function checkBalance({ instruments, refuseKey }: ProtocolFindings): void {
  if (instruments === undefined || instruments.some(({ kind }) => kind === undefined)) return;
  const gravimetric = instruments.filter(({ kind }) => kind === 'gravimetric').length;
  if (gravimetric === 1) return;
  const found = gravimetric === 0 ? 'no gravimetric instrument' : `${gravimetric} gravimetric instruments`;
  refuseKey('instruments', found, 'exactly one, as there is a table of cores');
}

/** Moisture is computed from cores; a unit that it cannot be computed in would be a wrong label on a right number. */
function checkUnit({ instruments, outcome, refuseKey }: ProtocolFindings): void {
  const kind = instruments?.find(({ instrument }) => instrument === outcome?.instrument)?.kind;
  const unit = outcome?.unit;
  const isComputed = kind === 'gravimetric' || kind === 'carbide';
  if (unit === undefined || !isComputed || unitsPerPercentByMass(unit) !== undefined) return;
  const what = kind === 'carbide' ? 'carbide readings' : 'cores';
  refuseKey(
    'outcome',
    `the unit ${quoted(unit)}`,
    `a unit that ${what} can be computed in: ${alternatives(dryBasisUnits)}`,
  );
}

const unitsOfTrays = { refill: 'ml/day', mass: 'kg' } as const;

/** Trays and the instruments that stand for them go together; a refill is computed in ml a day, whatever the plan calls it. */
function checkTrays({ instruments = [], outcome, refuseKey }: ProtocolFindings, hasTrays: boolean): void {
  const standing = instruments.flatMap(({ instrument, fromTrays }) =>
    fromTrays === undefined ? [] : [{ instrument, fromTrays }],
  );
  if (hasTrays !== standing.length > 0) {
    const found = hasTrays ? 'no instrument with fromTrays' : 'fromTrays without trays.csv';
    refuseKey(
      'instruments',
      found,
      'an instrument with fromTrays, "refill" or "mass", where there is a table of trays, and only there',
    );
  }
  if (new Set(standing.map(({ fromTrays }) => fromTrays)).size < standing.length)
    refuseKey('instruments', 'the same fromTrays twice', 'each of "refill" and "mass" once');
  const own = standing.find(({ instrument }) => instrument === outcome?.instrument);
  if (own === undefined || outcome?.unit === undefined || outcome.unit === unitsOfTrays[own.fromTrays]) return;
  refuseKey(
    'outcome',
    `the unit ${quoted(outcome.unit)}`,
    `the unit ${quoted(unitsOfTrays[own.fromTrays])}, in which trays are read`,
  );
}
