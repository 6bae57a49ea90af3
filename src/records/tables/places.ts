import type { Station } from '../../trial/index.js';
import type { CellReader } from '../cells/cell-reader.js';
import { anyNumber, type NumberRule, numberCell } from '../cells/number-cell.js';
import type { TableRow } from '../folder/table.js';
import { quoted } from '../quoted.js';

// A height may lie below the floor, a depth not outside the wall; a survey counts its positions from wherever it likes.
export const depthRule: NumberRule = { accepts: (value) => value >= 0, expected: 'a depth in mm of 0 or more' };
const rules = {
  height_mm: { ...anyNumber, expected: 'a height in mm' },
  depth_mm: depthRule,
  position_mm: { ...anyNumber, expected: 'a position along the wall in mm' },
} as const satisfies Record<string, NumberRule>;

type PlaceKey = keyof typeof rules;

const placeKeys = Object.keys(rules) as PlaceKey[];

/** Where on its wall something was measured, as far as a row says. */
export type Place = { readonly [key in PlaceKey]?: number };

/** The place that a row gives; nothing where it gives none. */
export function placeCells(cells: CellReader, row: TableRow): Place | undefined {
  // Of some hundred thousand readings most come without such a column.
  if (!placeKeys.some((key) => cells.table.columns.has(key))) return undefined;
  const stated = placeKeys.flatMap((key) => {
    const value = numberCell(cells, row, key, rules[key]);
    return value === undefined ? [] : [[key, value] as const];
  });
  return stated.length === 0 ? undefined : Object.fromEntries(stated);
}

/** The stations of a folder that are known from the places of its cores and readings. */
export interface PlaceBook {
  /**
   * The station of a row that gives a place: the one that it names, else the one at that place, which is given a name where there is none.
   * A station that stood elsewhere before is a problem.
   */
  stationAt(cells: CellReader, row: TableRow, wall: string, station: string, place: Place): string;
  /** Stations that no table lists. */
  added(): readonly Station[];
}

export function placeBook(listed: readonly Station[]): PlaceBook {
  const byName = new Map<string, Station>(listed.map((one) => [keyOf(one.wall, one.station), one]));
  const byPlace = new Map<string, Station>();
  const added = new Map<string, Station>();
  for (const one of listed) byPlace.set(placeKeyOf(one.wall, one), one);

  function stationAt(cells: CellReader, row: TableRow, wall: string, station: string, place: Place): string {
    const name = station === '' ? (byPlace.get(placeKeyOf(wall, place))?.station ?? nameOf(place)) : station;
    const known = byName.get(keyOf(wall, name));
    if (known === undefined) {
      const one = { station: name, wall, ...place, origin: cells.origin(row) };
      byName.set(keyOf(wall, name), one);
      byPlace.set(placeKeyOf(wall, place), one);
      added.set(keyOf(wall, name), one);
      return name;
    }
    const other = placeKeys.find((key) => place[key] !== undefined && known[key] !== place[key]);
    if (other !== undefined) {
      const there = known[other] === undefined ? `no ${other}` : `${known[other]} mm`;
      const where = `${known.origin.file}, row ${known.origin.row}`;
      const found = `${place[other]} mm for station ${quoted(name)} of wall ${quoted(wall)}, which has ${there} in ${where}`;
      cells.refuseAs(row, other, found, 'one place for each station');
    }
    return name;
  }

  return { stationAt, added: () => [...added.values()] };
}

function keyOf(wall: string, station: string): string {
  return `${wall}\u0000${station}`;
}

function placeKeyOf(wall: string, place: Place): string {
  return [wall, ...placeKeys.map((key) => place[key] ?? '')].join('\u0000');
}

/** For instance `300 mm high, 50 mm deep, at 1200 mm`. */
function nameOf({ height_mm, depth_mm, position_mm }: Place): string {
  return [
    ...(height_mm === undefined ? [] : [`${height_mm} mm high`]),
    ...(depth_mm === undefined ? [] : [`${depth_mm} mm deep`]),
    ...(position_mm === undefined ? [] : [`at ${position_mm} mm`]),
  ].join(', ');
}
