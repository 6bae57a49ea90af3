import { present } from '../../plain/present.js';
import { type Core, type Instrument, type Problem, weighingNoise_g, weighingOf } from '../../trial/index.js';
import { type CellReader, cellReader } from '../cells/cell-reader.js';
import { choiceCell } from '../cells/choice-cell.js';
import { dayOrTimeCell } from '../cells/date-cell.js';
import type { KnownNames } from '../cells/known-names.js';
import { nameCell } from '../cells/name-cell.js';
import { type NumberRule, numberCell } from '../cells/number-cell.js';
import type { Table, TableRow } from '../folder/table.js';
import { quoted } from '../quoted.js';
import { checkPlacesOfCores, type PlacesOfCores } from './cores-without-place.js';
import type { Known } from './known.js';
import { massStep_g } from './mass-step.js';
import { knewArmWords } from './read-readings.js';
import { stationCell } from './station-cell.js';

const mass: NumberRule = { accepts: (value) => value > 0, expected: 'a mass in grams above 0' };
const containerMass: NumberRule = {
  accepts: (value) => value >= 0,
  expected: 'the mass of the container in grams, 0 or more',
};

/**
 * The cores, in the order of the file. A core is there twice when date, wall, station and sample are the same; where the
 * sample has no name, when the masses and every further column are the same too.
 *
 * @param balance what the plan states of it, which says how far noise may go
 */
export function readCores(
  table: Table,
  known: Known,
  places: PlacesOfCores,
  problems: Problem[],
  balance: Partial<Instrument> = {},
): readonly Core[] {
  const cells = cellReader(table, problems);
  let noise_g: number | undefined;
  // Asked for where a mass fell the wrong way, and hardly ever.
  const noise = () => {
    noise_g ??= weighingNoise_g(weighingOf(balance, massStep_g(table) ?? 0));
    return noise_g;
  };
  const rowsByCore = new Map<string, number>();
  const cores = table.rows.map((row) => {
    const core = readCore(cells, row, known);
    checkMasses(cells, row, core, noise);
    const key = keyOf(table, row, core);
    const earlier = key === undefined ? undefined : rowsByCore.get(key);
    if (earlier !== undefined) {
      const column = core.sample === undefined ? 'wet_g' : 'sample';
      cells.refuseAs(row, column, `the same core as in row ${earlier}`, 'each core once, distinguished by its sample');
    } else if (key !== undefined) rowsByCore.set(key, row.row);
    return core;
  });
  checkPlacesOfCores(table, cores, places, problems);
  return cores;
}

function readCore(cells: CellReader, row: TableRow, known: Known): Core {
  const date = dayOrTimeCell(cells, row, 'date');
  const wall = nameCell(cells, row, 'wall', known.walls);
  const station = stationCell(cells, row, wall, known);
  const sample = cells.text(row, 'sample');
  const container_g = numberCell(cells, row, 'container_g', containerMass) ?? 0;
  const wet_g = numberCell(cells, row, 'wet_g', mass);
  const dry_g = numberCell(cells, row, 'dry_g', mass);
  const humid_g = numberCell(cells, row, 'humid_g', mass);
  const batch = known.batches === undefined ? cells.text(row, 'batch') : batchCell(cells, row, known.batches);
  const reader = cells.text(row, 'reader');
  const knewArm = choiceCell(cells, row, 'knew_arm', knewArmWords);
  return {
    date,
    wall,
    station,
    container_g,
    ...present({ sample, wet_g, dry_g, humid_g, batch, reader, knewArm }),
    origin: cells.origin(row),
  };
}

/** A core need not name its batch. */
function batchCell(cells: CellReader, row: TableRow, batches: KnownNames): string | undefined {
  return cells.text(row, 'batch') === undefined ? undefined : nameCell(cells, row, 'batch', batches);
}

/**
 * Water has mass: beyond the noise of the balance wet is no lighter than dry, nor is the core at the stated humidity, and the dry core weighs something. No masonry
 * holds its own mass of water, nor a quarter of it (common practice, no source): more than its own mass is a slip of units or container.
 */
function checkMasses(
  cells: CellReader,
  row: TableRow,
  { container_g, wet_g, dry_g, humid_g }: Core,
  noise_g: () => number,
): void {
  if (dry_g === undefined) return;
  if (wet_g !== undefined && dry_g > wet_g && dry_g - wet_g > noise_g()) {
    cells.refuseAs(
      row,
      'wet_g',
      `${wet_g} g wet, lighter than ${dry_g} g dry`,
      'a wet mass no lighter than the dry one',
    );
  }
  const water_g = (wet_g ?? dry_g) - dry_g;
  if (container_g < dry_g && water_g > dry_g - container_g) {
    const found = `${wet_g} g wet and ${dry_g} g dry, more water than dry material`;
    cells.refuseAs(row, 'wet_g', found, 'masses in grams, with the container in both or in neither');
  }
  if (humid_g !== undefined && dry_g > humid_g && dry_g - humid_g > noise_g()) {
    const found = `${humid_g} g at the stated humidity, lighter than ${dry_g} g dry`;
    cells.refuseAs(row, 'humid_g', found, 'a mass no lighter than the dry one');
  }
  if (container_g > 0 && dry_g <= container_g) {
    const found = `${dry_g} g dry with the container, which alone weighs ${container_g} g`;
    cells.refuseAs(row, 'dry_g', found, 'a dry mass heavier than its container (masses include the container)');
  }
}

/** Nothing for a core that cannot be distinguished from another for want of masses. */
function keyOf(table: Table, row: TableRow, core: Core): string | undefined {
  const place = [core.date, core.wall, core.station];
  if (core.sample !== undefined) return [...place, quoted(core.sample)].join('\u0000');
  if (core.wet_g === undefined || core.dry_g === undefined) return undefined;
  const further = table.furtherColumns.map((column) => row.cells[column] ?? '');
  return [...place, core.container_g, core.wet_g, core.dry_g, core.humid_g ?? '', ...further].join('\u0000');
}
